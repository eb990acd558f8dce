"""Names of months, in English, German, French, Spanish, Italian and Dutch."""

import unicodedata

#: By how a name begins, without accents; of several that fit the longest counts.
BEGINNINGS = (
    ("jan", "ene", "gen"),
    ("feb", "fev", "feu"),
    ("mar", "mae", "maa", "mrz"),
    ("apr", "avr", "abr"),
    ("may", "mai", "mag", "mei"),
    ("jun", "juin", "giu"),
    ("jul", "juil", "lug"),
    ("aug", "aou", "ago"),
    ("sep", "set"),
    ("oct", "okt", "ott"),
    ("nov",),
    ("dec", "dez", "dic"),
)


def month_of(name: str) -> int | None:
    """Return the month (1 to 12) that ``name`` begins as, or None."""
    plain = bare(name)
    fits = [
        (len(start), number)
        for number, starts in enumerate(BEGINNINGS, 1)
        for start in starts
        if plain.startswith(start)
    ]
    return max(fits)[1] if fits else None


def bare(text: str) -> str:
    """Return ``text`` in small letters without accents."""
    apart = unicodedata.normalize("NFKD", text.lower())
    return "".join(sign for sign in apart if not unicodedata.combining(sign))
