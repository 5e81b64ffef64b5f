"""A town's templates tried without a job: what cannot be read, and names that are never given."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from jinja2 import nodes
from jinja2.defaults import DEFAULT_NAMESPACE
from jinja2.exceptions import TemplateError

from permitkit.errors import Fault
from permitkit.load.toml_text import shown_path
from permitkit.model.reading import nearest
from permitkit.packet.prose import environment, template_fault
from permitkit.packet.wording.folders import template_folders, templates_of
from permitkit.packet.wording.names import NAMES

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from pathlib import Path

    from permitkit.model.rules import Sheet
    from permitkit.packet.wording.names import Tree

__all__ = ["template_faults"]

_GIVEN = frozenset({*DEFAULT_NAMESPACE, "loop", "caller", "varargs", "kwargs", "self", "super"})
_OF_A_MAPPING = frozenset({"items", "keys", "values", "get"})


class _Free:
    """Stands for what a template makes itself: nothing is known of its names."""


_FREE = _Free()
_Scope = Mapping[str, "Tree | _Free"]


def template_faults(sheets: Sequence[Sheet]) -> Iterator[Fault]:
    """Yield what is wrong with the templates beside a sheet.

    Parameters
    ----------
    sheets
        The sheet, then those it follows, whose templates it may build on.
    """
    folder = templates_of(sheets[0])
    folders = template_folders(sheets)
    taken: set[str] = set()
    strange: list[Path] = []
    for path in sorted(folder.glob("*.txt")):
        try:
            source = path.read_text(encoding="utf-8-sig")
            environment(folders).compile(source, path.name, str(path))
            tree = environment(folders).parse(source, path.name, str(path))
        except (TemplateError, OSError, ValueError, RecursionError) as error:
            yield template_fault(error, path.stem, folders)
            continue
        taken |= {str(part.value) for part in _parts_taken(tree)}
        if path.stem in NAMES:
            yield from _Reading(path).faults(tree, NAMES[path.stem])
        else:
            strange.append(path)
    for path in strange:
        if path.name not in taken:
            fix = nearest(path.stem, NAMES)
            expected = f"the name of a template: {', '.join(NAMES)}"
            yield Fault(
                shown_path(path), f"a template {path.stem!r}, which no page uses", expected, fix
            )


def _parts_taken(tree: nodes.Template) -> Iterator[nodes.Const]:
    """Yield the names of the templates that one takes in."""
    for kind in (nodes.Include, nodes.Extends, nodes.Import, nodes.FromImport):
        for node in tree.find_all(kind):
            yield from node.find_all(nodes.Const)


class _Reading:
    """One template while its names are looked up; every name that is never given is noted."""

    def __init__(self, path: Path) -> None:
        self._where = shown_path(path)
        self._faults: list[Fault] = []

    def faults(self, tree: nodes.Node, names: _Scope) -> list[Fault]:
        """Return a fault for every name in a template that it is never given."""
        self._read(tree, dict(names))
        return list(dict.fromkeys(self._faults))

    def _read(self, node: nodes.Node, scope: dict[str, Tree | _Free]) -> None:
        """Look up the names of a node, those it makes itself added to the scope."""
        if isinstance(node, nodes.Getattr | nodes.Getitem | nodes.Name):
            self._found(node, scope)
            return
        inner = scope
        if isinstance(node, nodes.For):
            inner = {**scope, **_targets(node.target, self._element(node.iter, scope))}
        elif isinstance(node, nodes.Macro | nodes.CallBlock):
            inner = {**scope, **{arg.name: _FREE for arg in node.args}}
        elif isinstance(node, nodes.With):
            inner = {**scope, **dict(_with(node))}
        for child in node.iter_child_nodes():
            if isinstance(node, nodes.For) and child in {node.iter, node.target}:
                continue
            self._read(child, inner)
        scope.update(_made_by(node))

    def _element(self, node: nodes.Node, scope: dict[str, Tree | _Free]) -> Tree | _Free:
        """Return what each of a list is, where it is a list that the template is given."""
        if not isinstance(node, nodes.Getattr | nodes.Getitem | nodes.Name):
            self._read(node, scope)
            return _FREE
        found = self._found(node, scope)
        return found[0] if isinstance(found, tuple) else _FREE

    def _found(self, node: nodes.Node, scope: dict[str, Tree | _Free]) -> Tree | _Free:
        """Return what a name stands for, or note that it stands for nothing."""
        if isinstance(node, nodes.Name):
            if node.ctx != "load" or node.name in _GIVEN:
                return _FREE
            return self._known(node.name, scope, node.lineno, "")
        if isinstance(node, nodes.Getattr):
            return self._below(self._found(node.node, scope), node.attr, node)
        if isinstance(node, nodes.Getitem):
            held = self._found(node.node, scope)
            if isinstance(node.arg, nodes.Const) and isinstance(node.arg.value, str):
                return self._below(held, node.arg.value, node)
            self._read(node.arg, scope)
            return held[0] if isinstance(held, tuple) else _FREE
        self._read(node, scope)
        return _FREE

    def _below(self, held: Tree | _Free, name: str, node: nodes.Node) -> Tree | _Free:
        if not isinstance(held, Mapping) or name in _OF_A_MAPPING:
            return _FREE
        return self._known(name, held, node.lineno, " there")

    def _known(self, name: str, names: _Scope, line: int, there: str) -> Tree | _Free:
        if name in names:
            return names[name]
        expected = f"a name that the template is given{there}: {', '.join(sorted(names))}"
        where = f"{self._where}: line {line}"
        self._faults.append(Fault(where, repr(name), expected, nearest(name, names)))
        return _FREE


def _targets(target: nodes.Node, each: Tree | _Free) -> dict[str, Tree | _Free]:
    """Return the names that a loop makes."""
    if isinstance(target, nodes.Name):
        return {target.name: each}
    return {name.name: _FREE for name in target.find_all(nodes.Name)}


def _made_by(node: nodes.Node) -> dict[str, Tree | _Free]:
    """Return the names that a node leaves behind it."""
    if isinstance(node, nodes.Macro):
        return {node.name: _FREE}
    if isinstance(node, nodes.Import):
        return {node.target: _FREE}
    if isinstance(node, nodes.FromImport):
        return {(name[1] if isinstance(name, tuple) else name): _FREE for name in node.names}
    if isinstance(node, nodes.Assign | nodes.AssignBlock):
        return _targets(node.target, _FREE)
    return {}


def _with(node: nodes.With) -> Iterator[tuple[str, Tree | _Free]]:
    for target in node.targets:
        yield from _targets(target, _FREE).items()
