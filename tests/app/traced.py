"""A command under strace (Debian's): which internet addresses it asks for, and which files it writes."""

import os
import re
import shutil
import subprocess
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

BRAILLE_PORT = 4101
"""Of BrlAPI, where a braille display of this machine is asked for (BRLTTY's manual: its first port)."""
_WATCHED = (
    "connect,bind,sendto,sendmsg,sendmmsg,"
    "open,openat,creat,mkdir,mkdirat,rename,renameat,renameat2,link,linkat,symlink,symlinkat,mknod,mknodat,truncate"
)
_CALL = re.compile(r"^\d+ +(?:<\.\.\. )?(\w+)(?:\(| resumed>)(.*)$")
_PATH = re.compile(r'(?:AT_FDCWD(?:<[^>]*>)?|\d+<([^>]*)>)?(?:, )?"((?:[^"\\]|\\.)*)"')
_OPENS = ("open", "openat")
_NETWORK = ("connect", "bind", "sendto", "sendmsg", "sendmmsg")


@dataclass(frozen=True, slots=True)
class Trace:
    internet: list[str]
    """Calls that name an internet address, whether or not they succeeded, and looks for the server of names. Asking
    whether this machine has a kind of address, by taking one of its own (`bind` to ::1), asks nobody.
    """
    written: set[Path]
    """Files opened to be written, and folders, names and links that were made."""

    def written_outside(self, *allowed: Path) -> list[str]:
        places = (*allowed, Path("/dev"), Path("/proc"))
        return sorted(str(path) for path in self.written if not any(path.is_relative_to(place) for place in places))


def strace_to(file: Path) -> list[str]:
    """What to put before a command. Every thread and every child is followed."""
    strace = shutil.which("strace")
    assert strace, "there is no strace here; put it there with: apt-get install strace"
    return [strace, "-f", "-qq", "-y", "--seccomp-bpf", "-e", f"trace={_WATCHED}", "-o", str(file)]


def trace_of(
    command: Sequence[str], folder: Path, environment: Mapping[str, str], given: bytes = b""
) -> tuple[Trace, subprocess.CompletedProcess[bytes]]:
    """Run in `folder`; the raw trace stays beside it."""
    file = folder.parent / f"{folder.name}.strace"
    done = subprocess.run(
        [*strace_to(file), *command], input=given, capture_output=True, check=False, cwd=folder, env=environment
    )
    return read_trace(file, folder), done


def read_trace(file: Path, folder: Path) -> Trace:
    """`folder`: where the command ran. An empty trace would prove nothing, so that fails."""
    calls = [found.groups() for line in _whole_calls(file) if (found := _CALL.match(line))]
    assert calls, f"strace saw nothing: {file.read_text()[:300]}"
    internet = [f"{name}({rest}" for name, rest in calls if _asks_the_internet(name, rest)]
    written = {path for name, rest in calls if name not in _NETWORK for path in _written(name, rest, folder)}
    return Trace(internet, written)


def _asks_the_internet(name: str, rest: str) -> bool:
    if name in _OPENS:
        return "/resolv.conf" in rest
    is_on_this_machine = '"::1"' in rest or '"127.' in rest
    is_own = is_on_this_machine and (name == "bind" or f"htons({BRAILLE_PORT})" in rest)
    return name in _NETWORK and "sa_family=AF_INET" in rest and not is_own


def _whole_calls(file: Path) -> Iterable[str]:
    """A call that another thread interrupted stands on two lines."""
    begun: dict[str, str] = {}
    for line in file.read_text(errors="replace").splitlines():
        thread, _, call = line.partition(" ")
        if call.endswith(" <unfinished ...>"):
            begun[thread] = call.removesuffix(" <unfinished ...>").strip()
        elif "resumed>" in call and thread in begun:
            yield f"{thread} {begun.pop(thread)}{call.partition('resumed>')[2]}"
        else:
            yield line
    yield from (f"{thread} {call}" for thread, call in begun.items())


def _written(name: str, rest: str, folder: Path) -> list[Path]:
    if re.search(r"\) += -1 ", rest):
        return []
    if name in _OPENS and not re.search(r"O_WRONLY|O_RDWR|O_CREAT", rest):
        return []
    named = [(found[1], found[2]) for found in _PATH.finditer(rest)]
    # Of two names the second is the one that is made.
    return [Path(os.path.normpath(Path(beside or folder, path))) for beside, path in named[-1:]]
