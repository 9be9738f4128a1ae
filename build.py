#!/usr/bin/env python3
"""Builds, serves, tests and measures Conewright. It needs Python 3.11 or newer and sets up the rest itself.

python3 build.py serve [--port N] [--network]
                                      build what is missing and serve the page at a printed address
python3 build.py site                 write the page to dist/
python3 build.py single               write the page as one file that needs no server
python3 build.py test [--deep] [...]  every check; further words go to pytest
python3 build.py test --engines       the page and the core's digits in Firefox and WebKit too, that alone
python3 build.py mutate [ROOM ...]    change the core in small places, to see whether its tests notice; hours
python3 build.py bench                measure speed, size and memory
"""

from __future__ import annotations

import os
import sys

if sys.version_info < (3, 11):  # noqa: UP036 - said in words before a newer syntax fails
    sys.exit("Conewright needs Python 3.11 or newer; this is " + sys.version.split()[0] + ".")

# Python may have been told not to look beside the script by itself.
sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))

from builder.commands import main  # noqa: E402

if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
