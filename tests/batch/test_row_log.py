import pytest
from batch_cases import small_case

from cli.files.errors import InputError
from cli.files.row_log import RowLog
from optimiser.batch.row import Result

FIRST, SECOND = (small_case(name, seed=seed) for seed, name in enumerate("ab"))


def filled(tmp_path):
    log = RowLog(tmp_path / "r.csv")
    log.start(resume=False, force=False)
    with log:
        log.add(FIRST.row(Result(status="proven", match=90.5)))
        log.add(SECOND.row(Result(status="clash", why_not="w")))
    return log


def test_rows_read_back_by_key(tmp_path):
    known = filled(tmp_path).known()

    assert known == {
        FIRST.key: Result(status="proven", match=90.5),
        SECOND.key: Result(status="clash", why_not="w"),
    }


def test_a_line_that_was_cut_off_is_dropped_and_the_next_row_stands_alone(tmp_path):
    log = filled(tmp_path)
    data = log.path.read_bytes()
    log.path.write_bytes(data[:-20])

    assert set(log.known()) == {FIRST.key}
    log.start(resume=True, force=False)
    with log:
        log.add(SECOND.row(Result(status="stopped")))
    assert log.known()[SECOND.key].status == "stopped"


def test_rows_of_an_earlier_batch_are_not_lost_by_accident(tmp_path):
    log = filled(tmp_path)

    with pytest.raises(InputError, match="--resume"):
        RowLog(tmp_path / "r.csv").start(resume=False, force=False)

    assert len(log.known()) == 2
    again = RowLog(tmp_path / "r.csv")
    again.start(resume=False, force=True)
    with again:
        assert again.known() == {}


def test_a_strange_line_is_told_with_its_number(tmp_path):
    log = filled(tmp_path)
    log.path.write_text(log.path.read_text() + '{"strange": 1}\n')

    with pytest.raises(InputError, match="line 3"):
        log.known()
