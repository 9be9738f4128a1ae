"""Pictures for the sheet: SVG text from plain values, drawn by the same geometry that answers.

Every picture is self-contained, takes its colours from CSS custom properties with fallbacks, carries a
title and a description, holds no ids and no scripts, and says in words what is not drawn true.
"""
