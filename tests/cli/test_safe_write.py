import pytest

from cli.files.errors import InputError
from cli.files.safe_write import write_bytes, write_text


def test_a_file_is_replaced_whole_and_nothing_is_left_beside_it(tmp_path):
    path = tmp_path / "plan.json"
    path.write_text("old")

    write_text(path, "neu ü")

    assert path.read_text(encoding="utf-8") == "neu ü"
    assert list(tmp_path.iterdir()) == [path]


def test_a_replaced_file_keeps_its_permissions(tmp_path):
    path = tmp_path / "plan.json"
    path.write_text("old")
    path.chmod(0o640)

    write_text(path, "new")

    assert path.stat().st_mode & 0o777 == 0o640


def test_a_link_still_points_to_the_file_written(tmp_path):
    (tmp_path / "real.json").write_text("old")
    link = tmp_path / "link.json"
    link.symlink_to(tmp_path / "real.json")

    write_text(link, "new")

    assert link.is_symlink()
    assert (tmp_path / "real.json").read_text() == "new"


def test_a_missing_folder_is_told(tmp_path):
    with pytest.raises(InputError, match="must be a place that can be written to"):
        write_bytes(tmp_path / "gone" / "plan.json", b"")


def test_a_folder_is_not_written_over(tmp_path):
    with pytest.raises(InputError, match="a folder of that name"):
        write_bytes(tmp_path, b"")

    assert tmp_path.is_dir()


def test_a_failed_write_leaves_the_old_file_and_no_other(tmp_path, monkeypatch):
    path = tmp_path / "plan.json"
    path.write_text("old")

    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("cli.files.safe_write.os.fsync", full)

    with pytest.raises(InputError, match="no space left"):
        write_text(path, "new")

    assert path.read_text() == "old"
    assert list(tmp_path.iterdir()) == [path]
