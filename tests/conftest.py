"""What every test shares: how long a law may be tried, and which core is under test."""

from __future__ import annotations

import os
from pathlib import Path

from hypothesis import HealthCheck, settings

ROOT = Path(__file__).resolve().parent.parent

# The machine that runs all tests is small and shared: a slow moment is no fault of the law. Examples come
# from a fixed seed so that a run says the same thing twice; `--deep` tries more.
settings.register_profile(
    "all", deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow]
)
settings.register_profile(
    "deep", deadline=None, max_examples=2000, suppress_health_check=[HealthCheck.too_slow]
)


settings.register_profile(
    "few", deadline=None, max_examples=5, derandomize=True, suppress_health_check=[HealthCheck.too_slow]
)
settings.load_profile(
    os.environ.get("CONEWRIGHT_EXAMPLES") or ("deep" if os.environ.get("CONEWRIGHT_DEEP") else "all")
)


def pytest_report_header() -> str:
    """Say which core is tested: under build.py it must be the built wheel."""
    import calc

    return f"core under test: {Path(str(calc.__file__)).parent}" + (
        " (built wheel)" if os.environ.get("CONEWRIGHT_BUILT") else " (not under build.py)"
    )
