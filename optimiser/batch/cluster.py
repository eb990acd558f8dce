"""The same batch on a Dask cluster, through joblib's own backend.

The cluster is the user's: ``dask scheduler`` on one machine and ``dask worker ADDRESS`` on each
that helps, with this program installed in the same version everywhere.
"""

import logging
from collections.abc import Callable
from concurrent.futures import Future, InvalidStateError
from contextlib import suppress
from threading import Event, Thread
from typing import TYPE_CHECKING, Any

from optimiser.domain.setup_error import SetupError

if TYPE_CHECKING:
    from distributed import Client

#: Seconds a scheduler and its workers have to answer.
PATIENCE = 20
#: Seconds from one look at the connection to the next.
PAUSE = 0.5
#: Seconds a batch waits for workers to come back when all have died.
COME_BACK = 300


def connect(address: str) -> "Client":
    """Return a client of the scheduler at ``address``.

    Raises
    ------
    SetupError
        If the libraries are missing, nobody answers or there is no worker.
    """
    try:
        from distributed import Client
    except ImportError:
        raise SetupError(
            "--scheduler",
            "needs the libraries dask and distributed",
            "an installation without them",
            "run pip install 'seasonwright[cluster]'",
        ) from None
    # of a lost scheduler it logs the whole stack; `lost` says it in a line
    logging.getLogger("distributed.client").setLevel(logging.CRITICAL)
    try:
        client = Client(address, timeout=PATIENCE, set_as_default=False)  # type: ignore[no-untyped-call]
        client.wait_for_workers(1, timeout=PATIENCE)
    except (OSError, ValueError) as error:
        raise SetupError(
            "--scheduler",
            "must be the address of a Dask scheduler that has workers",
            f"{address}: {' '.join(str(error).split())[:200]}",
            "start the scheduler and its workers, or correct the address",
        ) from None
    return client


class Watched:
    """Results that are waited for, and an error for each of them once the client has closed.

    What is handed to the client in the moment it closes is lost without a word: joblib submits in
    the client's own loop, where nobody hears of errors.
    """

    def __init__(self, client: "Client") -> None:
        self.over = Event()
        self._client = client
        self._waiting: set[Future[Any]] = set()

    def add(self, future: "Future[Any]") -> None:
        """Watch over one more result."""
        self._waiting.add(future)
        future.add_done_callback(self._waiting.discard)

    def start(self) -> None:
        """Look at the client again and again, in a thread of its own, until it is all over."""
        self.over.clear()
        Thread(target=self._look, daemon=True).start()

    def _look(self) -> None:
        while not self.over.wait(PAUSE):
            if self._client.status == "closed":
                for future in tuple(self._waiting):
                    with suppress(InvalidStateError):
                        future.set_exception(ConnectionError("the connection was lost"))


def backend(client: "Client") -> Any:
    """Return a joblib backend that also tells when a worker died.

    The one that comes with joblib keeps the error to itself, and whoever waits waits for ever
    (joblib 1.6: ``_collect`` sets the exception and never calls the callback).
    """
    from joblib._dask import DaskDistributedBackend

    watched = Watched(client)

    class TellingBackend(DaskDistributedBackend):  # type: ignore[misc]
        """Passes on what went wrong outside of a task, and never works in this process."""

        def effective_n_jobs(self, n_jobs: int) -> int:
            # joblib takes one worker to mean this very process
            return max(2, int(super().effective_n_jobs(n_jobs)))

        def submit(self, func: Any, callback: Callable[[Any], None] | None = None) -> Any:
            future = super().submit(func, callback)
            watched.add(future)

            def tell(done: Any) -> None:
                if done.exception() is not None and callback is not None:
                    callback(done.exception())

            future.add_done_callback(tell)
            return future

        def start_call(self) -> None:
            super().start_call()
            watched.start()

        def stop_call(self) -> None:
            watched.over.set()
            super().stop_call()

        def retrieve_result_callback(self, out: Any) -> Any:
            if isinstance(out, BaseException):
                raise out
            return super().retrieve_result_callback(out)

    return TellingBackend(client=client, wait_for_workers_timeout=COME_BACK)


def lost(error: BaseException) -> SetupError:
    """Return what to tell when the cluster is gone in the middle of a batch."""
    return SetupError(
        "--scheduler",
        "must stay up, with a worker at least, while a batch runs",
        f"a lost connection ({type(error).__name__})",
        "start it again and go on with --resume",
    )
