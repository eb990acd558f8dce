"""The process that searches, so that a search can be ended at once."""

import signal
from contextlib import suppress
from importlib import import_module
from multiprocessing.connection import Connection

from cli.serve.jobs import Done, Failed, News, PageJob


def work(connection: Connection) -> None:
    """Do jobs until nobody is there to give them."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    for module in ("optimiser.change.near", "cli.serve.finding"):
        import_module(module)  # now, so that the first job need not wait
    with suppress(EOFError, OSError, KeyboardInterrupt):
        while True:
            job: PageJob = connection.recv()
            connection.send(Done(_done(connection, job)))


def _done(connection: Connection, job: PageJob) -> object:
    """Return what a job came to; one that fails ends with a word and not with the process."""

    def tell(news: News) -> None:
        connection.send(news)

    try:
        return job.run(tell)
    except Exception as error:
        return Failed(f"{type(error).__name__}: {error}")
