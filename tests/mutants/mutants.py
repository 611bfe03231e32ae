"""Random mutants of the rules, one at a time, against the tests that concern them; run by hand.

    python tests/mutants/mutants.py [PATTERN …] [--count 100] [--seed 1] [--jobs 1]
    python tests/mutants/mutants.py --only rules/areafit/demands/substances.py:236

A pattern names files below `rules/areafit` (`marking/*`); none means all that `TESTS` names. A
mutant changes one piece of text in a copy of the tree, never here, and is killed when a test
fails. Printed are what killed each, and at the end the survivors: either no report can show
them, or a test is missing, to be written about lists and nameplates, since functions move.
"""

import argparse
import ast
import importlib.util
import itertools
import os
import queue
import random
import re
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from fnmatch import fnmatch
from pathlib import Path

ROOT = Path(__file__).parents[2]
RULES = Path("rules/areafit")
# The first pattern that fits a file says which tests concern it; what moves or merges is renamed
# here and nowhere else. Before them stand the rules' examples, which take a second; behind them
# what concerns every file, the slowest last, and at the end the tests of other rules.
TESTS = {
    "marking*": ("marking", "checks_area"),
    "checks/area*": ("checks_area",),
    "checks/assembly*": ("checks_assembly",),
    "checks/ignition*": ("checks_ignition",),
    "checks/loops*": ("checks_loops",),
    "checks/materials*": ("checks_materials",),
    "checks/places*": ("checks_places", "checks_area", "checks_materials"),
    "checks/proof*": ("checks_proof", "checks_area"),
    "checks/*": ("checks_*",),
    "corrosion*": ("checks_materials",),
    "demands*": ("checks_places", "checks_area", "checks_materials", "checks_ignition"),
}
FIRST = ("rules",)
THEN = ("cases", "digests", "second_opinion", "findings", "answers", "properties")
LAST = ("checks_*", "marking")
_NOT_COPIED = shutil.ignore_patterns(".*_cache", ".git", ".venv", "__pycache__", ".hypothesis")
_TIMEOUT = 1200.0  # seconds; what runs longer never ends, and is killed

_COMPARED: dict[type[ast.cmpop], tuple[str, str]] = {
    ast.Lt: ("<", "<="),
    ast.LtE: ("<=", "<"),
    ast.Gt: (">", ">="),
    ast.GtE: (">=", ">"),
    ast.Eq: ("==", "!="),
    ast.NotEq: ("!=", "=="),
    ast.Is: ("is", "is not"),
    ast.IsNot: (r"is\s+not", "is"),
    ast.In: ("in", "not in"),
    ast.NotIn: (r"not\s+in", "in"),
}
_COUNTED: dict[type[ast.operator], tuple[str, str]] = {
    ast.Add: (r"\+", "-"),
    ast.Sub: ("-", "+"),
    ast.Mult: (r"\*", "/"),
    ast.Div: ("/", "*"),
    ast.BitOr: (r"\|", "&"),
    ast.BitAnd: ("&", "|"),
}
_CALLED = {"min": "max", "max": "min", "any": "all", "all": "any"}
_Change = tuple[int, int, str]
_EMPTY = {"tuple": "()", "frozenset": "frozenset()", "list": "[]", "dict": "{}", "str": '""'}


@dataclass(frozen=True)
class Mutant:
    """One change of one file: what stands from `start` to `end`, in bytes, becomes `new`."""

    path: Path
    source: bytes
    start: int
    end: int
    new: str

    @property
    def text(self) -> bytes:
        """The file with the change in it."""
        return self.source[: self.start] + self.new.encode() + self.source[self.end :]

    @property
    def changes(self) -> bool:
        """Whether it compiles and isn't the same program in other words."""
        try:
            return ast.dump(ast.parse(self.text)) != ast.dump(ast.parse(self.source))
        except SyntaxError:
            return False

    @property
    def line(self) -> int:
        """The line where the change begins, from 1."""
        return self.source.count(b"\n", 0, self.start) + 1

    @property
    def before(self) -> str:
        """The lines that change, as they are."""
        return _lines(self.source, self.start, self.end)

    @property
    def after(self) -> str:
        """The lines that change, as they become."""
        return _lines(self.text, self.start, self.start + len(self.new.encode()))


def _lines(source: bytes, start: int, end: int) -> str:
    first = source.rfind(b"\n", 0, start) + 1
    last = source.find(b"\n", end)
    return " ".join(source[first : len(source) if last < 0 else last].decode().split())


class _File:
    """A file and the places of its nodes; `ast` counts columns in bytes of UTF-8."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.source = (ROOT / path).read_bytes()
        self._starts = [0]
        for line in self.source.splitlines(keepends=True):
            self._starts.append(self._starts[-1] + len(line))

    def mutants(self) -> Iterator[Mutant]:
        """Every change; some may not compile."""
        for node, returns in _walked(ast.parse(self.source), ""):
            for changes in (self._operators(node), self._values(node, returns), self._flow(node)):
                yield from (Mutant(self.path, self.source, *change) for change in changes)

    def _span(self, node: ast.expr | ast.stmt) -> tuple[int, int]:
        assert node.end_lineno is not None
        assert node.end_col_offset is not None
        first = self._starts[node.lineno - 1] + node.col_offset
        return first, self._starts[node.end_lineno - 1] + node.end_col_offset

    def _between(self, left: ast.expr, right: ast.expr, old: str, new: str) -> Iterator[_Change]:
        """The operator between two operands, which parentheses may stand beside."""
        begin, end = self._span(left)[1], self._span(right)[0]
        found = re.search(old.encode(), self.source[begin:end])
        if found is not None:
            yield begin + found.start(), begin + found.end(), new

    def _operators(self, node: ast.AST) -> Iterator[_Change]:
        match node:
            case ast.Compare(left, ops, others):
                for one, op, other in zip((left, *others), ops, others, strict=False):
                    yield from self._between(one, other, *_COMPARED[type(op)])
            case ast.BoolOp(op, values):
                words = ("and", "or") if isinstance(op, ast.And) else ("or", "and")
                for one, other in itertools.pairwise(values):
                    yield from self._between(one, other, *words)
            case ast.BinOp(left, op, right) if type(op) in _COUNTED:
                yield from self._between(left, right, *_COUNTED[type(op)])
            case ast.UnaryOp(ast.Not()):
                start = self._span(node)[0]
                yield start, start + len("not "), ""

    def _values(self, node: ast.AST, returns: str) -> Iterator[_Change]:
        match node:
            case ast.Call(ast.Name(name) as called) if name in _CALLED:
                yield *self._span(called), _CALLED[name]
            case ast.Call(ast.Name("Decimal"), [ast.Constant(str(value)) as figure]):
                try:
                    yield *self._span(figure), f'"{Decimal(value) + 1}"'
                except InvalidOperation:
                    return
            case ast.Constant(bool(value)):
                yield *self._span(node), str(not value)
            case ast.Constant(int(value)):
                yield from ((*self._span(node), str(value + by)) for by in (1, -1))
            case ast.Return(ast.expr() as value):
                yield from ((*self._span(value), each) for each in _instead(returns))

    def _flow(self, node: ast.AST) -> Iterator[_Change]:
        match node:
            case ast.Continue():
                yield *self._span(node), "break"
            case ast.Break():
                yield *self._span(node), "continue"
            case ast.If(test) | ast.IfExp(test) | ast.match_case(guard=ast.expr() as test):
                yield from ((*self._span(test), each) for each in ("True", "False"))
            case ast.comprehension(ifs=tests):
                for test in tests:
                    yield from ((*self._span(test), each) for each in ("True", "False"))


def _instead(returns: str) -> Iterator[str]:
    """What a function may return instead, by its annotation."""
    if returns == "bool":
        yield from ("True", "False")
    if returns.endswith("| None"):
        yield "None"
    empty = _EMPTY.get(returns.partition("[")[0])
    if empty is not None and "|" not in returns:
        yield empty


def _walked(node: ast.AST, returns: str) -> Iterator[tuple[ast.AST, str]]:
    """Each node with the annotation of its function; without types, examples, formatted texts.

    `ast` of Python 3.11 doesn't know where in a formatted text a node stands.
    """
    match node:
        case ast.JoinedStr() | ast.Call(ast.Name("Example")):
            return
        case ast.FunctionDef(returns=ast.expr() as annotation):
            returns = ast.unparse(annotation)
    yield node, returns
    for name, value in ast.iter_fields(node):
        if name not in {"annotation", "returns", "decorator_list"}:
            for child in value if isinstance(value, list) else (value,):
                if isinstance(child, ast.AST):
                    yield from _walked(child, returns)


def _concerning(path: Path, tree: Path) -> list[str]:
    """The folders of tests that are run for a file, those that concern it first."""
    within = path.relative_to(RULES).as_posix()
    first = next((tests for pattern, tests in TESTS.items() if fnmatch(within, pattern)), ())
    found = [
        each.relative_to(tree).as_posix()
        for pattern in (*FIRST, *first, *THEN, *LAST)
        for each in sorted((tree / "tests").glob(pattern))
    ]
    return list(dict.fromkeys(found))


def _failed(tree: Path, tests: list[str]) -> str | None:
    """The first test that fails in a copy of the tree; None where all pass."""
    env = {**os.environ, "PYTHONPATH": os.pathsep.join((f"{tree}/rules", f"{tree}/cli"))}
    program = str(Path(sys.executable).with_name("pytest"))
    command = [program, "-x", "-q", "--tb=no", "-rfE", "--hypothesis-profile=mutants"]
    try:
        told = subprocess.run(
            [*command, *tests],
            cwd=tree,
            env=env,
            timeout=_TIMEOUT,
            capture_output=True,
            text=True,
            check=False,
        )
    except subprocess.TimeoutExpired:
        return "time"
    if told.returncode == 0:
        return None
    lines = told.stdout.splitlines()
    named = (line for line in lines if line.startswith(("FAILED", "ERROR")))
    return next(named, (lines or told.stderr.splitlines() or ["?"])[-1]).split(" - ")[0]


def _copied(tree: Path) -> Path:
    """A copy of the tree, from which its own modules are imported."""
    shutil.copytree(ROOT, tree, ignore=_NOT_COPIED)
    ask = [sys.executable, "-c", "import areafit; print(areafit.__file__)"]
    env = {**os.environ, "PYTHONPATH": f"{tree}/rules"}
    told = subprocess.run(ask, env=env, cwd=tree, capture_output=True, text=True, check=True)
    if not Path(told.stdout.strip()).is_relative_to(tree):
        raise SystemExit(f"The copy is not what is imported: {told.stdout}")
    return tree


def _tried(mutant: Mutant, trees: "queue.Queue[Path]") -> str | None:
    """What kills the mutant in one of the copies, which is then as it was."""
    tree = trees.get()
    file = tree / mutant.path
    compiled = Path(importlib.util.cache_from_source(str(file)))
    try:
        compiled.unlink(missing_ok=True)
        file.write_bytes(mutant.text)
        return _failed(tree, _concerning(mutant.path, tree))
    finally:
        file.write_bytes(mutant.source)
        compiled.unlink(missing_ok=True)
        trees.put(tree)


def _chosen(given: argparse.Namespace) -> list[Mutant]:
    """The mutants that are asked for, in the order of files and lines."""
    paths = [path.relative_to(ROOT) for path in sorted((ROOT / RULES).rglob("*.py"))]
    named = {tuple(each.rsplit(":", 1)) for each in given.only or ()}
    if named:
        files = [path for path in paths if path.as_posix() in {file for file, _ in named}]
    else:
        patterns = given.patterns or list(TESTS)
        names = {path: path.relative_to(RULES).as_posix() for path in paths}
        for each in patterns:
            if not any(fnmatch(name, each) for name in names.values()):
                raise SystemExit(f"{each} names no file: say in TESTS where it has gone.")
        files = [path for path in paths if any(fnmatch(names[path], each) for each in patterns)]
    every = [mutant for path in files for mutant in _File(path).mutants()]
    if named:
        return [m for m in every if (m.path.as_posix(), str(m.line)) in named and m.changes]
    random.Random(given.seed).shuffle(every)  # noqa: S311 - the same each time on purpose
    picked = itertools.islice((mutant for mutant in every if mutant.changes), given.count)
    return sorted(picked, key=lambda mutant: (mutant.path, mutant.start))


def main() -> int:
    """Try the mutants; 1 where some survive."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawTextHelpFormatter
    )
    parser.add_argument("patterns", nargs="*", metavar="PATTERN")
    parser.add_argument("--count", type=int, default=100)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--jobs", type=int, default=1)
    parser.add_argument("--only", action="append", metavar="FILE:LINE", help="every mutant there")
    parser.add_argument("--list", action="store_true", help="print the mutants and run nothing")
    given = parser.parse_args()
    chosen = _chosen(given)
    if given.list:
        for each in chosen:
            print(f"{each.path}:{each.line}\n  {each.before}\n  {each.after}")
        return 0
    with tempfile.TemporaryDirectory() as folder:
        trees: queue.Queue[Path] = queue.Queue()
        for number in range(given.jobs):
            trees.put(_copied(Path(folder, str(number)).resolve()))
        tree = trees.get()
        known = list(
            dict.fromkeys(test for each in chosen for test in _concerning(each.path, tree))
        )
        if (failed := _failed(tree, known)) is not None:
            raise SystemExit(f"Without a mutant already: {failed}")
        trees.put(tree)
        survivors = []
        with ThreadPoolExecutor(given.jobs) as pool:
            ends = pool.map(lambda mutant: _tried(mutant, trees), chosen)
            for each, killer in zip(chosen, ends, strict=True):
                print(f"{each.path}:{each.line} {killer or 'survives'}", flush=True)
                if killer is None:
                    survivors.append(each)
                    print(f"  {each.before}\n  {each.after}", flush=True)
    print(f"\n{len(chosen)} mutants, {len(survivors)} survive")
    for each in survivors:
        print(f"{each.path}:{each.line}\n  {each.before}\n  {each.after}")
    return 1 if survivors else 0


if __name__ == "__main__":
    sys.exit(main())
