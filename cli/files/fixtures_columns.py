"""Which column of a fixture table is which."""

import re
import unicodedata
from collections.abc import Sequence

from cli.files.fixtures_clubs import AWAY, HOME
from optimiser.domain.fixture import Fixture

COLUMNS = tuple(Fixture.model_fields)
#: Rows above the header that may hold a title.
TITLE_ROWS = 20
#: Columns that are read for words such as postponed, and are no part of a fixture.
STATUS, KIND, RESULT = "status", "type", "result"
#: Columns that tell of a match in another way: both sides in one cell, where it is played, the
#: round, whose match it is, and the day of the week.
PAIR, GROUND, ROUND, TEAM, WEEKDAY = "pair", "ground", "round", "team", "weekday"
#: Columns that people have and no plan needs.
NEEDLESS = "needless"
SAID = {
    "date": (
        *("dates", "matchdate", "dateofmatch", "fixturedate", "gamedate", "playingdate", "when"),
        *("wann", "quand", "cuando", "quando", "wanneer"),
        *("datetime", "matchdatetime", "dateandtime", "datekickoff", "startdate", "datestime"),
        *("daydate", "dayanddate", "dateday", "dateoffixture"),
        *("datum", "fecha", "data", "dato"),
    ),
    "kickoff": (
        *("ko", "kotime", "time", "times", "starttime", "kickofftime", "start", "throwin"),
        *("pushback", "tipoff", "faceoff", "puckdrop", "tapoff", "startsat", "centrepass"),
        *("matchtime", "gametime", "timeko", "bullyoff", "firstwhistle", "ballin", "dropoff"),
        *("zeit", "uhrzeit", "anpfiff", "anstoss", "beginn", "heure", "hora", "ora", "tijd"),
        *("aanvang", "fixturetime", "kickofflocal", "timeresult", "resulttime"),
    ),
    "opponent": (
        *("opp", "opps", "oppo", "opposition", "opponents", "opposing", "opposingteam"),
        *("oppositionteam", "against", "versus", "vs", "v", "opponentteam", "playing"),
        *("gegner", "adversaire", "rival", "avversario", "tegenstander"),
    ),
    "competition": (
        *("comp", "competitions", "tournament", "event", "leaguecup", "compt", "league", "series"),
        *("wettbewerb", "competicion", "competizione", "competitie"),
    ),
    "venue": ("ha", "homeaway", "haorn", "han", "homeoraway", "homeawayneutral", "hna"),
    "priority": ("importance",),
    "minutes": ("minute", "mins", "matchminutes"),
    "travel_hours": ("travel", "travelh", "traveltime"),
    "target": ("readinesstarget",),
    "weight": (),
    HOME: (
        *("hometeam", "homeclub", "homeside", "team1", "teama", "host", "hosts"),
        *("heim", "heimmannschaft", "heimverein", "domicile", "recevant", "local", "casa", "thuis"),
        *("thuisteam",),
    ),
    AWAY: (
        *("awayteam", "awayclub", "awayside", "visitors", "visitor", "team2", "teamb", "guest"),
        *("gast", "gastmannschaft", "gastverein", "exterieur", "visiteur", "visitante", "ospite"),
        *("trasferta", "uit", "uitteam", "guests"),
    ),
    STATUS: ("matchstatus", "state", "fixturestatus", "gamestatus"),
    KIND: ("kind", "eventtype", "matchtype", "fixturetype"),
    RESULT: ("results", "res", "score", "scores", "ft", "fulltime", "finalscore", "wdl", "outcome"),
    PAIR: (
        *("fixture", "fixtures", "match", "matches", "game", "games", "teams", "matchup"),
        *("subject", "summary", "title"),
        *("begegnung", "paarung", "partie", "partido", "partita", "wedstrijd", "rencontre"),
    ),
    GROUND: (
        *("where", "location", "place", "pitch", "venuepitch", "venueground", "field", "stadium"),
        *("venuename", "groundname", "spielort", "spielstatte", "ort", "platz", "lieu", "lugar"),
        *("stade", "luogo", "campo", "locatie"),
    ),
    ROUND: ("rd", "rnd", "stage", "runde", "ronda", "jornada", "giornata"),
    TEAM: ("ourteam", "side", "squad", "xi", "grade", "agegroup"),
    WEEKDAY: ("day", "dayofweek", "wochentag", "tag", "jour", "dia", "giorno", "dag"),
    NEEDLESS: (
        *("no", "nr", "number", "id", "matchid", "matchno", "matchnumber", "gameno", "gamenumber"),
        *("wk", "week", "weekno", "gw", "gameweek", "matchweek", "matchday", "spieltag", "journee"),
        *("ref", "referee", "referees", "umpire", "umpires", "officials", "att", "attendance"),
        *("pts", "points", "pointsfor", "pointsagainst", "for", "pf", "pa", "gf", "ga"),
        *("homescore", "awayscore", "scoreh", "scorea", "homegoals", "awaygoals", "ht", "halftime"),
        *("broadcast", "tv", "notes", "note", "comments", "comment", "remarks", "postcode"),
        *("address", "meet", "meettime", "transport", "kit", "colours", "report", "scorers"),
        *("division", "div", "pool", "group", "section", "season", "end", "endtime", "enddate"),
        *("alldayevent", "private", "reminder", "description", "ticket", "tickets"),
        *("finish", "ergebnis", "resultat", "resultado", "risultato", "uitslag", "but", "butts"),
        *("schiedsrichter", "arbitre", "bemerkung", "coach", "month", "monat", "liga", "staffel"),
    ),
}


def column_of(name: str) -> str:
    """Return the column that ``name`` means, or an empty string."""
    plain = plain_name(name)
    for column, said in SAID.items():
        # "Home team name" says what "Home team" does
        if plain and {plain, plain.removesuffix("name")} & {column.replace("_", ""), *said}:
            return column
    return ""


def plain_name(name: str) -> str:
    """Return the letters and digits of ``name``, small, without accents or what is in brackets."""
    apart = unicodedata.normalize("NFKD", name.lower().replace("ß", "ss"))
    bare = "".join(sign for sign in apart if not unicodedata.combining(sign))
    return re.sub(r"\(.*?\)|[\W_]", "", bare)


def has_date(cells: Sequence[str]) -> bool:
    """Return whether a row can be the one that names the columns."""
    return any(column_of(cell) == "date" for cell in cells)


def known_columns(cells: Sequence[str]) -> int:
    """Return how many cells name a column, if one of them names the date; else 0."""
    return sum(bool(column_of(cell)) for cell in cells) if has_date(cells) else 0


def best_separator(lines: Sequence[str]) -> str:
    """Return the sign between the cells: comma, semicolon, tab or an upright stroke."""
    if lines and lines[0].strip().lower().startswith("sep="):
        return lines[0].strip()[4:5] or ","
    known = {
        sign: max((_known(line.split(sign)) for line in lines[:TITLE_ROWS]), default=0)
        for sign in (",", ";", "\t", "|")
    }
    if not any(known.values()):
        # no name that is known: the sign that stands in most lines
        held = lines[:TITLE_ROWS]
        known = {sign: sum(sign in line for line in held) for sign in (";", "\t", "|", ",")}
    return max(known, key=lambda sign: known[sign])


def _known(cells: Sequence[str]) -> int:
    return known_columns([cell.strip().strip('"') for cell in cells])
