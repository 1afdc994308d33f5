"""Every public function says by one call what it does, and the call does what it says."""

import ast
import doctest
import importlib
import inspect
from pathlib import Path

import pytest

PACKAGE = Path(__file__).resolve().parent.parent / "pastrylab"
MODULES = sorted(
    ".".join(path.relative_to(PACKAGE.parent).with_suffix("").parts).removesuffix(".__init__")
    for path in PACKAGE.rglob("*.py")
    if path.stem not in ("__main__", "jupyter_server_config")
)
FLAGS = doctest.ELLIPSIS | doctest.NORMALIZE_WHITESPACE
# Whose functions need a page, a disk or a figure: they are shown by the lessons and tried by tests of their own.
NO_CALL_SHOWN = ("pastrylab.page", "pastrylab.course", "pastrylab.desk")


@pytest.mark.parametrize("name", MODULES)
def test_the_examples_hold(name):
    module = importlib.import_module(name)
    finder = doctest.DocTestFinder(exclude_empty=True)
    for example in finder.find(module, name):
        lines = []
        failed = doctest.DocTestRunner(optionflags=FLAGS, verbose=False).run(example, out=lines.append).failed
        assert not failed, "".join(lines)


def public_functions(name):
    """The public functions of a module as its source has them."""
    path = Path(inspect.getsourcefile(importlib.import_module(name)))
    for node in ast.parse(path.read_text(encoding="utf-8")).body:
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
            yield node


@pytest.mark.parametrize("name", [name for name in MODULES if not name.startswith(NO_CALL_SHOWN)])
def test_every_public_function_is_described_and_shown_by_a_call(name):
    lacking = [node.name for node in public_functions(name) if ">>>" not in (ast.get_docstring(node) or "")]
    assert lacking == []
