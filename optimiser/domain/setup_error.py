"""Trouble with what a person gave: where, what must hold, what came, what to do."""


class SetupError(ValueError):
    """Input that cannot be used, told in four parts.

    Parameters
    ----------
    where
        Field, row or date.
    must
        What must hold.
    got
        What came instead.
    do
        What puts it right.
    fixture
        Index of the fixture at fault in the order given, so that a reader can name its line.
    """

    def __init__(
        self, where: str, must: str, got: str, do: str, *, fixture: int | None = None
    ) -> None:
        super().__init__(f"{where}: {must} (got {got}); {do}")
        self.where, self.must, self.got, self.do = where, must, got, do
        self.fixture = fixture
