"""The commands of build.py and their options."""

from __future__ import annotations

import argparse
from collections.abc import Sequence

from builder.places import DIST, ROOT
from builder.say import Stop, say

_PORTS = 65535


def _serve(options: argparse.Namespace, rest: list[str]) -> int:
    from builder import server, site

    site.build()
    return server.serve(options.port, network=options.network)


def _site(options: argparse.Namespace, rest: list[str]) -> int:
    from builder import site

    site.build()
    say(f"The page is in {DIST.name}/; any web server can serve it as it is.")
    return 0


def _single(options: argparse.Namespace, rest: list[str]) -> int:
    from builder import single

    made = single.build()
    name, size = made.relative_to(ROOT).as_posix(), made.stat().st_size / 1e6
    say(f"The page is in {name} ({size:.1f} MB); a browser opens it from the disk as it is.")
    return 0


def _test(options: argparse.Namespace, rest: list[str]) -> int:
    from builder import checks

    return checks.run_all(rest, deep=options.deep, engines=options.engines)


def _bench(options: argparse.Namespace, rest: list[str]) -> int:
    from bench import measure

    return measure.run_all()


def _mutate(options: argparse.Namespace, rest: list[str]) -> int:
    from builder import mutation

    return mutation.run_all(options.rooms, options.count, options.seed)


def _port(text: str) -> int:
    """A port as typed; argparse says in words what is wrong with it."""
    if not text.isdecimal() or int(text) > _PORTS:
        raise argparse.ArgumentTypeError(f"a port is a whole number up to {_PORTS}, not {text!r}")
    return int(text)


def main(words: Sequence[str]) -> int:
    """Run the command named on the command line; returns the exit code."""
    parser = argparse.ArgumentParser(
        prog="build.py", description="Builds, serves, tests and measures Conewright."
    )
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")
    serve = commands.add_parser("serve", help="build what is missing and serve the page")
    serve.add_argument("--port", type=_port, default=8765, help="port to serve at (default 8765)")
    serve.add_argument("--network", action="store_true", help="serve others on the network too")
    serve.set_defaults(act=_serve)
    site = commands.add_parser("site", help="write the page to dist/")
    site.set_defaults(act=_site)
    single = commands.add_parser("single", help="write the page as one file that needs no server")
    single.set_defaults(act=_single)
    test = commands.add_parser("test", help="run every check; further words go to pytest")
    test.add_argument("--deep", action="store_true", help="also the slow sweeps")
    test.add_argument("--engines", action="store_true", help="only the page in Chromium, Firefox and WebKit")
    test.set_defaults(act=_test)
    bench = commands.add_parser("bench", help="measure speed, size and memory")
    bench.set_defaults(act=_bench)
    mutate = commands.add_parser("mutate", help="change the core in small places: do its tests notice?")
    mutate.add_argument("rooms", nargs="*", metavar="ROOM", help="rooms of calc/ (default: all of them)")
    mutate.add_argument("--count", type=int, default=100, help="places to change in each room (default 100)")
    mutate.add_argument("--seed", type=int, default=13, help="by which they are drawn (default 13)")
    mutate.set_defaults(act=_mutate)
    options, rest = parser.parse_known_args(words)
    if rest and options.command != "test":
        parser.error(f"not understood: {' '.join(rest)}")
    try:
        code: int = options.act(options, rest)
        return code
    except Stop as fault:
        say(f"\nStopped. {fault}")
        return 1
    except OSError as fault:
        place = f"{fault.filename}: " if fault.filename else ""
        say(
            f"\nStopped. {place}{fault.strerror or fault}. Is there room on the disk,"
            " and may this account write in the project's folder?"
        )
        return 1
    except KeyboardInterrupt:
        say("\nStopped by hand.")
        return 130
