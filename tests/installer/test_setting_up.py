"""What the set-up decides, and what it says, on machines of every kind."""

from __future__ import annotations

import ast
import errno
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

import setting_up
from setting_up import DRAWING, SCREEN, SetUpError

Commands = list[list[str]]
INSTALLER = Path(setting_up.__file__).parent


@pytest.fixture
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A checkout of its own, with an environment made and nothing installed in it."""
    venv = tmp_path / ".venv"
    venv.mkdir()
    (tmp_path / "pyproject.toml").write_text("[project]\n")
    for name, path in {"ROOT": tmp_path, "VENV": venv, "STAMP": venv / "stamp", "LOG": venv / "log"}.items():
        monkeypatch.setattr(setting_up, name, path)
    monkeypatch.setattr(setting_up, "LEAST_ROOM_MB", 0)
    return tmp_path


@pytest.fixture
def commands(monkeypatch: pytest.MonkeyPatch) -> Callable[[int, str], Commands]:
    """Commands are noted and answered, not run."""
    noted: Commands = []

    def answer(code: int, output: str) -> Commands:
        def follow(command: list[str]) -> tuple[int, str]:
            noted.append(command)
            return code, output

        monkeypatch.setattr(setting_up, "follow", follow)
        return noted

    return answer


# ---- the machine


@pytest.mark.parametrize("version", [(3, 11, 0), (3, 12, 1), (3, 13, 5), (4, 0, 0)])
def test_a_python_new_enough_will_do(version: tuple[int, ...]) -> None:
    assert setting_up.python_fault(version, "/usr/bin/python3", "") == ""


@pytest.mark.parametrize("version", [(2, 7, 18), (3, 9, 2), (3, 10, 13)])
def test_an_old_python_is_told_what_is_needed(version: tuple[int, ...]) -> None:
    said = setting_up.python_fault(version, "/usr/bin/python3", "")
    assert "Python 3.11 or newer is needed" in said
    assert "Install a newer one" in said


def test_a_newer_python_on_the_machine_is_named() -> None:
    newer = setting_up.newer_python({"python3.11": "/a", "python3.12": "/b"}.get)
    assert newer == "python3.12"
    assert "use python3.12 in place of python3" in setting_up.python_fault((3, 9, 2), "/usr/bin/python3", newer)
    assert setting_up.newer_python({"python3.9": "/a"}.get) == ""


@pytest.mark.parametrize("path", sorted(INSTALLER.glob("*.py")), ids=lambda path: path.name)
def test_an_old_python_can_read_it_far_enough_to_say_so(path: Path) -> None:
    ast.parse(path.read_text(encoding="utf-8"), feature_version=(3, 7))


@pytest.mark.parametrize(
    ("library", "version", "fit"),
    [("glibc", "2.36", True), ("glibc", "2.34", True), ("glibc", "2.31", False), ("glibc", "2.9", False), ("", "", True)],
)
def test_an_old_linux_is_told_so(library: str, version: str, fit: bool) -> None:
    assert (setting_up.glibc_fault(library, version) == "") is fit


def test_a_full_disk_is_seen_before_it_fails() -> None:
    assert setting_up.room_fault(setting_up.LEAST_ROOM_MB) == ""
    assert "184 MB free" in setting_up.room_fault(184)


@pytest.mark.parametrize(
    ("system", "environ", "screen"),
    [
        ("linux", {}, False),
        ("linux", {"DISPLAY": ""}, False),
        ("linux", {"DISPLAY": ":0"}, True),
        ("linux", {"WAYLAND_DISPLAY": "wayland-0"}, True),
        ("win32", {}, True),
        ("darwin", {}, True),
    ],
)
def test_a_screen_is_noticed(system: str, environ: dict[str, str], screen: bool) -> None:
    assert setting_up.has_screen(system, environ) is screen


# ---- system packages


def test_only_what_is_missing_is_asked_for() -> None:
    assert setting_up.missing({"liba.so.1": "liba1", "libb.so.2": "libb2"}, lambda library: library == "liba.so.1") == {
        "libb.so.2": "libb2"
    }
    assert not setting_up.opens("libnosuch.so.99")


def test_the_two_lists_of_libraries_do_not_overlap() -> None:
    assert not DRAWING.keys() & SCREEN.keys()


def test_the_environment_needs_the_package_of_this_python() -> None:
    assert setting_up.venv_package((3, 11)) == "python3.11-venv"


def test_the_commands_ask_nothing_and_use_the_same_proxy() -> None:
    update, install = setting_up.apt_commands(["libgl1"], ("sudo", "-n"), {"https_proxy": "http://proxy:1", "HOME": "/root"})
    assert update[:5] == install[:5] == ["sudo", "-n", "env", "DEBIAN_FRONTEND=noninteractive", "https_proxy=http://proxy:1"]
    assert update[-1] == "update"
    assert install[-4:] == ["install", "-y", "--no-install-recommends", "libgl1"]


def test_root_needs_no_sudo() -> None:
    assert setting_up.apt_commands(["libgl1"], (), {})[0][0] == "env"


def test_the_line_to_type_is_whole() -> None:
    install = "apt-get install -y --no-install-recommends libgl1 libegl1"
    assert setting_up.line_to_type(["libgl1", "libegl1"], sudo=True) == f"sudo apt-get update && sudo {install}"
    assert setting_up.line_to_type(["libgl1", "libegl1"], sudo=False) == f"su -c 'apt-get update && {install}'"


def test_without_leave_it_stops_and_shows_the_line(monkeypatch: pytest.MonkeyPatch, commands: Callable[[int, str], Commands]) -> None:
    noted = commands(0, "")
    monkeypatch.setattr("shutil.which", lambda name: f"/usr/bin/{name}")
    monkeypatch.setattr(setting_up, "may_install", lambda: None)
    with pytest.raises(SetUpError, match=r"sudo apt-get install -y --no-install-recommends libgl1 python3\.11-venv"):
        setting_up.install_packages({"libGL.so.1": "libgl1"}, ["python3.11-venv"])
    assert noted == []


def test_a_linux_without_apt_is_told_the_libraries(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("shutil.which", lambda _name: None)
    with pytest.raises(SetUpError, match=r"These are missing: libGL\.so\.1\."):
        setting_up.install_packages({"libGL.so.1": "libgl1"}, [])


def test_with_leave_the_lists_are_fetched_first(monkeypatch: pytest.MonkeyPatch, commands: Callable[[int, str], Commands]) -> None:
    noted = commands(0, "")
    monkeypatch.setattr("shutil.which", lambda name: f"/usr/bin/{name}")
    monkeypatch.setattr(setting_up, "may_install", lambda: ())
    setting_up.install_packages({"libGL.so.1": "libgl1"}, [])
    assert [command[-1] for command in noted] == ["update", "libgl1"]


def test_nothing_missing_runs_nothing(commands: Callable[[int, str], Commands]) -> None:
    noted = commands(0, "")
    setting_up.install_packages({}, ())
    assert noted == []


# ---- the program


def test_it_installs_once(place: Path, commands: Callable[[int, str], Commands]) -> None:
    noted = commands(0, "")
    setting_up.install_program(Path("python"), "")
    setting_up.install_program(Path("python"), "")
    assert [command[-2:] for command in noted] == [["--editable", "."]]


def test_it_installs_again_when_the_project_file_changed(place: Path, commands: Callable[[int, str], Commands]) -> None:
    noted = commands(0, "")
    setting_up.install_program(Path("python"), "")
    (place / "pyproject.toml").write_text("[project]\ndependencies = []\n")
    setting_up.install_program(Path("python"), "")
    assert len(noted) == 2


def test_the_test_tools_are_added_and_then_serve_both(place: Path, commands: Callable[[int, str], Commands]) -> None:
    noted = commands(0, "")
    for extra in ("", "test", "", "test"):
        setting_up.install_program(Path("python"), extra)
    assert [command[-1] for command in noted] == [".", ".[test]"]


def test_a_moved_checkout_is_installed_again() -> None:
    assert setting_up.stamp(b"a", Path("/one"), "") != setting_up.stamp(b"a", Path("/two"), "")


def test_a_failed_installation_is_tried_again(place: Path, commands: Callable[[int, str], Commands]) -> None:
    noted = commands(1, "ERROR: Failed to establish a new connection")
    for _ in range(2):
        with pytest.raises(SetUpError, match="The internet cannot be reached"):
            setting_up.install_program(Path("python"), "")
    assert len(noted) == 2
    assert "new connection" in (place / ".venv" / "log").read_text()


def test_an_environment_that_answers_is_kept_and_a_broken_one_is_made_anew(
    place: Path, commands: Callable[[int, str], Commands], monkeypatch: pytest.MonkeyPatch
) -> None:
    noted = commands(0, "")
    monkeypatch.setattr("sys.platform", "linux")
    python = place / ".venv" / "bin" / "python"
    python.parent.mkdir()
    python.symlink_to(sys.executable)
    monkeypatch.setattr(setting_up, "answers", Path.exists)
    assert setting_up.make_venv() == python
    assert noted == []
    python.unlink()
    setting_up.make_venv()
    assert [command[1:4] for command in noted] == [["-m", "venv", "--clear"]]


def test_this_environment_answers_and_a_text_file_does_not(tmp_path: Path) -> None:
    assert setting_up.answers(Path(sys.executable))
    broken = tmp_path / "python"
    broken.write_text("#!/bin/sh\nexit 1\n")
    broken.chmod(0o755)
    assert not setting_up.answers(broken)


def test_a_command_is_followed(place: Path, capsys: pytest.CaptureFixture[str]) -> None:
    line = "Downloading numpy-2.4.6-cp311-cp311-manylinux_2_28_x86_64.whl (16.9 MB)"
    code, output = setting_up.follow([sys.executable, "-c", f"import sys; print({line!r}); sys.exit(3)"])
    assert (code, output.strip()) == (3, line)
    assert "fetching numpy 2.4.6 (16.9 MB)" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("  Downloading pyside6_essentials-6.11.3-cp310-abi3-manylinux_2_34_x86_64.whl (80.3 MB)", "pyside6_essentials 6.11.3 (80.3 MB)"),
        ("  Downloading https://index/a/six-1.17.0-py2.py3-none-any.whl (11 kB)", "six 1.17.0 (11 kB)"),
        ("  Downloading six-1.17.0-py2.py3-none-any.whl.metadata (1 kB)", ""),
        ("Collecting six", ""),
    ],
)
def test_what_is_fetched_is_shown(line: str, told: str) -> None:
    assert setting_up.fetching(line) == told


# ---- what went wrong


@pytest.mark.parametrize(
    ("output", "told"),
    [
        ("OSError: [Errno 28] No space left on device", "The disk is full"),
        ("E: You don't have enough free space in /var/cache/apt/archives/.", "The disk is full"),
        ("Temporary failure in name resolution\nERROR: No matching distribution found for hatchling", "The internet cannot be reached"),
        ("W: Failed to fetch http://a\nE: Unable to locate package libgl1", "The internet cannot be reached"),
        ("getaddrinfo failed", "The internet cannot be reached"),
        ("SSLError(SSLCertVerificationError(1, '[SSL: CERTIFICATE_VERIFY_FAILED] certificate verify failed'))", "PIP_CERT"),
        ("ProxyError('Cannot connect to proxy.', OSError('Tunnel connection failed: 403 Forbidden'))", "https_proxy"),
        ("ERROR: No matching distribution found for PySide6-Essentials<6.12,>=6.11.3", "no build for this machine"),
        ("E: Could not get lock /var/lib/dpkg/lock-frontend.", "busy"),
        ("ERROR: Could not install packages: [Errno 13] Permission denied: '/a'", "may not write"),
        ("noise\nOSError: Readme file does not exist: README.md\nerror: metadata-generation-failed", "Readme file does not exist"),
        ("noise\nERROR: this first\nERROR: that\nmore noise", "It said: ERROR: that"),
        ("only noise", "It said: only noise"),
        ("", "It said: nothing"),
    ],
)
def test_a_failure_is_said_in_a_sentence(output: str, told: str) -> None:
    assert told in setting_up.why(output)


@pytest.mark.parametrize(
    ("fault", "code", "told"),
    [
        (SetUpError("No."), 1, "Tundish: No."),
        (OSError(errno.ENOSPC, "No space left on device"), 1, "The disk is full"),
        (PermissionError(errno.EACCES, "Permission denied", "/opt/tundish/.venv"), 1, "may not write /opt/tundish/.venv"),
        (OSError(errno.EIO, "Input/output error", "/a"), 1, "Input/output error: /a"),
        (KeyboardInterrupt(), 130, "Stopped."),
    ],
)
def test_nothing_ends_in_a_traceback(fault: BaseException, code: int, told: str, capsys: pytest.CaptureFixture[str]) -> None:
    def work() -> int:
        raise fault

    assert setting_up.guarded(work) == code
    assert told in capsys.readouterr().out


def test_the_exit_code_is_the_programs(place: Path) -> None:
    assert setting_up.guarded(lambda: setting_up.start(Path(sys.executable), ["nosuchmodule"], {})) == 1
    assert setting_up.start(Path(sys.executable), ["platform"]) == 0


@pytest.mark.parametrize("script", ["run.py", "test.py"])
def test_an_unfit_machine_gets_one_sentence_and_exit_code_1(script: str) -> None:
    path = str(INSTALLER / script)
    old = "import sys, runpy; sys.version_info = (3, 9, 2); sys.argv = ['x']"
    line = f"{old}; sys.path.insert(0, {str(INSTALLER)!r}); runpy.run_path({path!r}, run_name='__main__')"
    done = subprocess.run([sys.executable, "-c", line], capture_output=True, text=True, check=False)
    assert done.returncode == 1
    assert done.stdout.startswith("Tundish: Python 3.11 or newer is needed; this is 3.9.2")
    assert done.stderr == ""
