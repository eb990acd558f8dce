"""The same batch on a Dask cluster, through joblib's own backend.

The cluster is the user's: ``dask scheduler`` on one machine and ``dask worker ADDRESS`` on each
that helps, with this program installed in the same version everywhere.
"""

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from optimiser.domain.setup_error import SetupError

if TYPE_CHECKING:
    from distributed import Client

#: Seconds a scheduler and its workers have to answer.
PATIENCE = 20
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


def backend(client: "Client") -> Any:
    """Return a joblib backend that also tells when a worker died.

    The one that comes with joblib keeps the error to itself, and whoever waits waits for ever
    (joblib 1.6: ``_collect`` sets the exception and never calls the callback).
    """
    from joblib._dask import DaskDistributedBackend

    class TellingBackend(DaskDistributedBackend):  # type: ignore[misc]
        """Passes on what went wrong outside of a task, and never works in this process."""

        def effective_n_jobs(self, n_jobs: int) -> int:
            # joblib takes one worker to mean this very process
            return max(2, int(super().effective_n_jobs(n_jobs)))

        def submit(self, func: Any, callback: Callable[[Any], None] | None = None) -> Any:
            future = super().submit(func, callback)

            def tell(done: Any) -> None:
                if done.exception() is not None and callback is not None:
                    callback(done.exception())

            future.add_done_callback(tell)
            return future

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
        f"{type(error).__name__}: {' '.join(str(error).split())[:200]}",
        "start it again and go on with --resume",
    )
