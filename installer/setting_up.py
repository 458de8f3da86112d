"""What run.py and test.py share: all that a fresh machine needs before Tundish can start. Standard library only.

Written so that Python 3.7 can read it far enough to say that it is too old.
"""

from __future__ import annotations

import ctypes
import errno
import hashlib
import importlib.util
import os
import platform
import re
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterable, Mapping, Sequence
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
VENV = ROOT / ".venv"
STAMP = VENV / "set-up-stamp"
LOG = VENV / "set-up.log"
LEAST_PYTHON = (3, 11)
LEAST_GLIBC = (2, 34)  # what the Qt wheels are built for
LEAST_ROOM_MB = 1000  # the environment with its test tools takes about 550, and the wheels lie beside it for a moment

# The shared libraries that Qt opens, and the Debian packages they come in: to draw at all, and to show a window.
DRAWING = {
    "libGL.so.1": "libgl1",
    "libEGL.so.1": "libegl1",
    "libxkbcommon.so.0": "libxkbcommon0",
    "libdbus-1.so.3": "libdbus-1-3",
    "libglib-2.0.so.0": "libglib2.0-0",
    "libfontconfig.so.1": "libfontconfig1",
}
SCREEN = {
    "libxcb-cursor.so.0": "libxcb-cursor0",
    "libxcb-icccm.so.4": "libxcb-icccm4",
    "libxcb-keysyms.so.1": "libxcb-keysyms1",
    "libxcb-shape.so.0": "libxcb-shape0",
    "libxkbcommon-x11.so.0": "libxkbcommon-x11-0",
}
OFFLINE = (
    r"Temporary failure|resolv(e|ing) host|Could not resolve|NameResolutionError|getaddrinfo failed|nodename nor servname"
    r"|Network is unreachable|Failed to establish|ConnectTimeout|Connect(ion)? timed out|Read timed out"
    r"|Connection (refused|reset)|Unable to connect|Failed to fetch"
)
FULL = "The disk is full. Make some room and run this again."
CAUSES = (
    (r"No space left on device|Errno 28|(not |n.t have )enough (free )?space", FULL),
    (
        r"certificate.verify.failed",
        "The connection was not trusted. Behind an office network, ask for its certificate and name the file in PIP_CERT.",
    ),
    (r"Cannot connect to proxy|407 Proxy|ProxyError", "The proxy let nothing through. Check https_proxy and run this again."),
    (OFFLINE, "The internet cannot be reached. The first set-up fetches the program's libraries: connect, and run this again."),
    (
        r"Could not get lock|dpkg was interrupted",
        "The system's own installer is busy or was interrupted. Let it finish and run this again.",
    ),
    (
        r"No matching distribution found|Could not find a version",
        "A library has no build for this machine. A 64-bit Python 3.11 to 3.13 on Windows 10, macOS 13 or Debian 12 will do.",
    ),
    (r"Permission denied|Errno 13|Access is denied", "This user may not write there. Put the checkout in a folder of your own."),
)


class SetUpError(Exception):
    """The set-up cannot go on; the message says why and what to do, in words for the user."""


def set_up(extra: str, libraries: Mapping[str, str]) -> Path:
    """The Python to start Tundish with, once all it needs is there; quick when it already is.

    `extra` is an extra of pyproject.toml, or empty. Raises SetUpError, or OSError for a disk that will not write.
    """
    refuse(python_fault(sys.version_info[:3], sys.executable, newer_python(shutil.which)))
    if sys.platform == "linux":
        refuse(glibc_fault(*platform.libc_ver()))
        install_packages(missing(libraries, opens), () if has_ensurepip() else (venv_package(sys.version_info[:2]),))
    python = make_venv()
    install_program(python, extra)
    return python


def guarded(work: Callable[[], int]) -> int:
    """The exit code of the work; what goes wrong is said in a sentence, without a traceback."""
    try:
        return work()
    except SetUpError as fault:
        say(str(fault))
    except OSError as fault:
        say(disk_sentence(fault))
    except KeyboardInterrupt:
        say("Stopped. Run this again to go on.")
        return 130
    return 1


def start(python: Path, words: Sequence[str], environ: Mapping[str, str] = os.environ) -> int:
    """The exit code of a module run in the environment, from the checkout."""
    return subprocess.call([str(python), "-m", *words], cwd=ROOT, env=dict(environ))


def say(text: str) -> None:
    """One line of progress."""
    print(f"Tundish: {text}", flush=True)


def has_screen(system: str, environ: Mapping[str, str]) -> bool:
    """Whether a window could be shown."""
    return system != "linux" or bool(environ.get("DISPLAY") or environ.get("WAYLAND_DISPLAY"))


# ---- is the machine fit


def refuse(fault: str) -> None:
    """Stops the set-up when there is a fault."""
    if fault:
        raise SetUpError(fault)


def python_fault(version: Sequence[int], where: str, newer: str) -> str:
    """Why this Python will not do, or nothing; `newer` is the name of one on this machine that would."""
    if tuple(version[:2]) >= LEAST_PYTHON:
        return ""
    found = (
        f"This machine has one: use {newer} in place of python3." if newer else "Install a newer one from python.org and run this with it."
    )
    return f"Python {dotted(LEAST_PYTHON)} or newer is needed; this is {dotted(version)} ({where}). {found}"


def newer_python(find: Callable[[str], str | None]) -> str:
    """The command of a Python on this machine that is new enough, or nothing."""
    names = (f"python3.{minor}" for minor in range(LEAST_PYTHON[1] + 3, LEAST_PYTHON[1] - 1, -1))
    return next((name for name in names if find(name)), "")


def glibc_fault(library: str, version: str) -> str:
    """Why this Linux is too old for Qt, or nothing; one that does not tell is given the chance."""
    numbers = tuple(int(part) for part in re.findall(r"\d+", version)[:2])
    if library != "glibc" or numbers >= LEAST_GLIBC:
        return ""
    return f"This Linux is too old for Qt (glibc {version}; {dotted(LEAST_GLIBC)} is needed): Debian 12, Ubuntu 22.04 or newer will do."


def room_fault(free_mb: int) -> str:
    """Why there is not enough room on the disk, or nothing."""
    return (
        ""
        if free_mb >= LEAST_ROOM_MB
        else f"The disk has {free_mb} MB free and the set-up needs {LEAST_ROOM_MB}. Make some room and run this again."
    )


def dotted(version: Iterable[int]) -> str:
    """A version as it is written."""
    return ".".join(str(part) for part in version)


# ---- system packages


def missing(libraries: Mapping[str, str], found: Callable[[str], bool]) -> dict[str, str]:
    """Those shared libraries, with their packages, that are not on this machine."""
    return {library: package for library, package in libraries.items() if not found(library)}


def opens(library: str) -> bool:
    """Whether the system finds a shared library."""
    try:
        ctypes.CDLL(library)
    except OSError:
        return False
    return True


def has_ensurepip() -> bool:
    """Whether Python can make an environment: Debian packs that part apart."""
    return importlib.util.find_spec("ensurepip") is not None


def venv_package(version: Sequence[int]) -> str:
    """The Debian package that lets this Python make an environment."""
    return f"python{dotted(version)}-venv"


def install_packages(libraries: Mapping[str, str], others: Iterable[str]) -> None:
    """Installs what is missing where it may; else says exactly what to type, and stops."""
    packages = [*libraries.values(), *others]
    if not packages:
        return
    if not shutil.which("apt-get"):
        names = ", ".join([*libraries, *others])
        raise SetUpError(f"These are missing: {names}. Install them with this system's package manager and run this again.")
    may = may_install()
    if may is None:
        line = line_to_type(packages, sudo=bool(shutil.which("sudo")))
        raise SetUpError(f"Some system packages are missing. Type this, then run this again:\n\n    {line}\n")
    say(f"Installing {len(packages)} system packages that Qt and Python need ...")
    heard = ""
    for command in apt_commands(packages, may, os.environ):
        code, output = follow(command)
        heard += output
    if code:
        raise SetUpError(f"The system packages were not installed. {why(heard)}")


def may_install() -> tuple[str, ...] | None:
    """What to put before a command that installs system packages, or None where that needs a password."""
    if os.geteuid() == 0:
        return ()
    if (
        shutil.which("sudo")
        and subprocess.run(["sudo", "-n", "true"], capture_output=True, stdin=subprocess.DEVNULL, check=False).returncode == 0
    ):
        return ("sudo", "-n")
    return None


def apt_commands(packages: Sequence[str], before: Sequence[str], environ: Mapping[str, str]) -> tuple[list[str], list[str]]:
    """The two commands that install packages without a question, by way of the same proxy."""
    proxies = [f"{name}={value}" for name, value in environ.items() if name.lower() in {"http_proxy", "https_proxy", "no_proxy"}]
    apt = [*before, "env", "DEBIAN_FRONTEND=noninteractive", *proxies, "apt-get", "-o", "DPkg::Lock::Timeout=120"]
    return [*apt, "update"], [*apt, "install", "-y", "--no-install-recommends", *packages]


def line_to_type(packages: Sequence[str], *, sudo: bool) -> str:
    """The line that an administrator types to install packages."""
    install = f"apt-get install -y --no-install-recommends {' '.join(packages)}"
    return f"sudo apt-get update && sudo {install}" if sudo else f"su -c 'apt-get update && {install}'"


# ---- the environment and the program in it


def make_venv() -> Path:
    """The Python of the environment in the checkout, made or mended when it does not answer."""
    python = VENV / ("Scripts/python.exe" if sys.platform == "win32" else "bin/python")
    if python.exists() and answers(python):
        return python
    say(f"Making an environment for Python {dotted(sys.version_info[:3])} in {VENV} ...")
    code, output = follow([sys.executable, "-m", "venv", "--clear", str(VENV)])
    if code:
        raise SetUpError(f"The environment was not made. {why(output)}")
    return python


def answers(python: Path) -> bool:
    """Whether an environment's Python runs, is new enough and has pip."""
    test = f"import sys, pip; sys.exit(sys.version_info[:2] < {LEAST_PYTHON})"
    return subprocess.run([str(python), "-c", test], capture_output=True, check=False).returncode == 0


def install_program(python: Path, extra: str) -> None:
    """Installs the program and its libraries, unless they are there as pyproject.toml now asks."""
    wanted = stamp((ROOT / "pyproject.toml").read_bytes(), ROOT, extra)
    left = STAMP.read_text(encoding="utf-8") if STAMP.exists() else ""
    if is_current(left, wanted):
        return
    if not left:
        refuse(room_fault(shutil.disk_usage(VENV).free // 1_000_000))
    say("Installing the program's libraries: about 150 MB to fetch the first time ...")
    command = [
        str(python),
        "-m",
        "pip",
        "install",
        "--disable-pip-version-check",
        "--no-input",
        "--editable",
        f".[{extra}]" if extra else ".",
    ]
    code, output = follow(command)
    LOG.write_text(output, encoding="utf-8")
    if code:
        raise SetUpError(f"The libraries were not installed. {why(output)} (All that was said is in {LOG}.)")
    STAMP.write_text(wanted, encoding="utf-8")
    say("Everything is installed.")


def stamp(pyproject: bytes, where: Path, extra: str) -> str:
    """What was installed, in a line that differs when it would have to be installed again."""
    return f"{hashlib.sha256(pyproject + os.fsencode(where)).hexdigest()} {extra}"


def is_current(left: str, wanted: str) -> bool:
    """Whether the stamp left by the last set-up covers what is wanted; one with an extra covers one without."""
    return left == wanted or (wanted.endswith(" ") and left.startswith(wanted))


def follow(command: Sequence[str]) -> tuple[int, str]:
    """The exit code and the words of a command; what it fetches is shown as it comes."""
    environ = {**os.environ, "PYTHONUNBUFFERED": "1", "LC_ALL": "C.UTF-8"}
    kept: list[str] = []
    with subprocess.Popen(
        command,
        cwd=ROOT,
        env=environ,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        encoding="utf-8",
        errors="replace",
    ) as process:
        for line in process.stdout or ():
            kept.append(line)
            fetched = fetching(line)
            if fetched:
                say(f"  fetching {fetched}")
    return process.returncode, "".join(kept)


def fetching(line: str) -> str:
    """Which library, and how much, a line of pip says it fetches; else nothing."""
    match = re.search(r"Downloading (?:\S*/)?([^\s/-]+)-([^\s/-]+)-\S+\.whl \((.+)\)", line)
    return f"{match[1]} {match[2]} ({match[3]})" if match else ""


# ---- what went wrong


def why(output: str) -> str:
    """What went wrong, in a sentence, from the words of apt, venv or pip."""
    for pattern, sentence in CAUSES:
        if re.search(pattern, output, re.IGNORECASE):
            return sentence
    lines = [line.strip() for line in output.splitlines() if line.strip()]
    raised = [line for line in lines if re.match(r"\w+Error: ", line)]
    errors = [line for line in lines if re.match(r"(error|e):", line, re.IGNORECASE)]
    return f"It said: {(raised or errors or lines or ['nothing'])[-1]}"


def disk_sentence(fault: OSError) -> str:
    """What went wrong with a file, in a sentence."""
    if fault.errno == errno.ENOSPC:
        return FULL
    if isinstance(fault, PermissionError):
        return f"This user may not write {fault.filename or 'there'}. Put the checkout in a folder of your own and run this again."
    return f"{fault.strerror or fault}: {fault.filename or ROOT}"
