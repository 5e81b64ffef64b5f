"""Tags along a line: each as near to its point as its neighbours let it."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["spread"]


def spread(
    wanted: Sequence[float], widths: Sequence[float], low: float, high: float
) -> tuple[float, ...] | None:
    """Return the middles of tags laid side by side in order, or None if they have no room.

    Parameters
    ----------
    wanted
        Where each tag's middle would like to be, in rising order. [mm]
    widths
        The room each takes, air included. [mm]
    low, high
        Between which all of them lie. [mm]

    Notes
    -----
    Tags that push each other make a block whose middle lies at the mean of what its members
    want, the least sum of squared shifts.

    Examples
    --------
    >>> spread([5.0, 6.0, 30.0], [10.0, 10.0, 10.0], 0.0, 40.0)
    (5.0, 15.0, 30.0)
    >>> spread([1.0, 2.0], [10.0, 10.0], 0.0, 12.0) is None
    True
    """
    if sum(widths) > high - low + 1e-9:
        return None
    blocks: list[tuple[float, float, int]] = []  # left edge wanted by the whole, width, members
    for at, width in zip(wanted, widths, strict=True):
        blocks.append((at - width / 2, width, 1))
        while len(blocks) > 1 and _runs_into(blocks[-2], blocks[-1], low, high):
            blocks[-2:] = [_merged(blocks[-2], blocks[-1])]
    return _middles(blocks, widths, low, high)


def _left(block: tuple[float, float, int], low: float, high: float) -> float:
    """Return where a block begins, kept between the ends."""
    return min(max(block[0], low), high - block[1])


def _runs_into(
    first: tuple[float, float, int], last: tuple[float, float, int], low: float, high: float
) -> bool:
    """Return whether the later block begins before the earlier ends."""
    return _left(first, low, high) + first[1] > _left(last, low, high) + 1e-9


def _merged(
    first: tuple[float, float, int], last: tuple[float, float, int]
) -> tuple[float, float, int]:
    """Return two blocks as one that begins where its members on the whole want it to."""
    count = first[2] + last[2]
    left = (first[0] * first[2] + (last[0] - first[1]) * last[2]) / count
    return left, first[1] + last[1], count


def _middles(
    blocks: Sequence[tuple[float, float, int]], widths: Sequence[float], low: float, high: float
) -> tuple[float, ...]:
    """Return the middle of every tag of the blocks."""
    middles: list[float] = []
    for block in blocks:
        at = _left(block, low, high)
        for width in widths[len(middles) : len(middles) + block[2]]:
            middles.append(at + width / 2)
            at += width
    return tuple(middles)
