"""Commands and the page that write into a season folder: killed anywhere, they leave it whole."""

from cli.season import day_demands
from cli.season.commit import commit
from cli.serve.keeping import FolderFiles
from tests.season.conftest import invoke
from tests.season.killed import check_whole


def test_days_that_are_asked_for(club, tmp_path, monkeypatch):
    before, kept = club.now(), []
    monkeypatch.setattr(day_demands, "commit", lambda *given: kept.append(given))
    asked = ("--week", 5, "--off", "gym:monday", "--save", "--today", "2027-01-30")
    assert invoke("week", club.path, *asked).exit_code == 0
    assert club.now() == before  # all it writes, it writes by this one call
    ((_, *given),) = kept

    check_whole(club, lambda folder: commit(folder, *given), tmp_path, every=2, least=5)


def test_a_save_of_the_page(club, tmp_path):
    files = {name: data for name, data in club.now().items() if name in club.deciding() and data}
    saved = {name: data + b"\n" for name, data in files.items()}

    check_whole(
        club, lambda folder: FolderFiles(folder).write(saved, "saved"), tmp_path, every=2, least=5
    )
