"""The order of sheets: a town before what it follows."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol, TypeVar

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

__all__ = ["in_layers"]


class _Layer(Protocol):
    """What follows others: a sheet, or a glance at one."""

    @property
    def follows(self) -> tuple[str, ...]: ...


_Follower = TypeVar("_Follower", bound=_Layer)


def in_layers(place: str, sheets: Mapping[str, _Follower]) -> Iterator[_Follower]:
    """Yield the sheets nearest first: a sheet stands before every sheet it follows."""
    seen: list[str] = []

    def visit(name: str) -> None:
        for followed in reversed(sheets[name].follows):
            if followed not in seen:
                visit(followed)
        seen.append(name)

    visit(place)
    yield from (sheets[name] for name in reversed(seen))
