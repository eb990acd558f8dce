"""Files with some of their bytes changed, and the ways in which each kind is read."""

import contextlib

from hypothesis import strategies as st

from cli.files.errors import InputError

JUNK = [
    b"", b"\x00", b"\xff", b"-", b"0", b"{", b"]", b",", b";", b'"', b"\n", b"\r",
    b"1e999", b"9999-12-31", b"nan", b"null", b"\xef\xbb\xbf", b"\xf0\x9f\xa6\x8a",
]  # fmt: skip


@st.composite
def spoiled(draw, whole):
    """Return ``whole`` with up to three stretches of it replaced."""
    for _ in range(draw(st.integers(1, 3))):
        start = draw(st.integers(0, len(whole)))
        stop = draw(st.integers(start, min(len(whole), start + 12)))
        middle = draw(st.sampled_from(JUNK) | st.binary(max_size=6))
        whole = whole[:start] + middle + whole[stop:]
    return whole


def refusal(reading, path):
    """Return what is said of a file that cannot be used, None if it can."""
    told = None
    with contextlib.suppress(InputError):
        try:
            reading(path)
        except InputError as error:
            told = error.format_message()
            raise
    return told
