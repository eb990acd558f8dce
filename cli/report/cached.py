"""Values beside formulas, for programs that read a workbook without working it out."""

import io
import re
import zipfile
from collections.abc import Mapping

#: A cell of a sheet with its formula and the empty place for its value.
CELL = re.compile(r'(<c r="([A-Z]+[0-9]+)"[^>]*><f>[^<]*</f>)(?:<v ?/>|<v></v>)')


def with_values(book: bytes, sheets: Mapping[str, Mapping[str, int]]) -> bytes:
    """Return the workbook with the value of each formula written beside it.

    Parameters
    ----------
    sheets
        By a sheet's place in the file (``xl/worksheets/sheet2.xml``): values by cell.
    """
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(book)) as old, zipfile.ZipFile(out, "w") as new:
        for part in old.infolist():
            data = old.read(part)
            if part.filename in sheets:
                data = _filled(data.decode("utf-8"), sheets[part.filename]).encode("utf-8")
            new.writestr(part, data, zipfile.ZIP_DEFLATED)
    return out.getvalue()


def _filled(text: str, values: Mapping[str, int]) -> str:
    return CELL.sub(lambda found: f"{found[1]}<v>{values[found[2]]}</v>", text)
