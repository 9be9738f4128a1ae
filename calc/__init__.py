"""Conewright's core: set, cut and prove a taper on a manual lathe.

Standard library only. One door leads in: :func:`calc.job.work`.
Lengths are millimetres, angles radians, tapers plain ratios on diameter.
"""

__version__ = "0.1.0"
