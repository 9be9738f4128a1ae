"""A small set of linear equations, as least squares with covariances want it."""

from __future__ import annotations

from collections.abc import Sequence


def solved(rows: Sequence[Sequence[float]], right: Sequence[float]) -> list[float]:
    """The solution of a small set of linear equations with a positive matrix, by elimination."""
    table = [[*row, value] for row, value in zip(rows, right, strict=True)]
    size = len(table)
    for column in range(size):
        best = max(range(column, size), key=lambda row: abs(table[row][column]))
        table[column], table[best] = table[best], table[column]
        pivot = table[column][column]
        for row in range(size):
            if row != column and table[row][column]:
                factor = table[row][column] / pivot
                for k in range(column, size + 1):
                    table[row][k] -= factor * table[column][k]
    return [table[row][size] / table[row][row] for row in range(size)]
