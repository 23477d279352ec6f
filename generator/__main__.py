"""The command line: arguments in, faults to stderr, exit code out: 0 done, 1 not built, 2 bad spec, 3 a check fails."""

import argparse
import gc
import sys
from collections.abc import Sequence
from pathlib import Path

from generator import __version__
from generator.errors import OutputError, PacketError, SpecError

DONE, NOT_BUILT, BAD_SPEC, CHECK_FAILS = 0, 1, 2, 3
RECIPIENTS = ("owner", "fabricator", "official", "insurer", "haulier", "engineer")
"""Whose packet may be built; release grants to the same, but is not loaded to read an argument."""


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command; every fault becomes a line on stderr with the way out."""
    arguments = _parser().parse_args(argv)
    # A command ends soon and leaves next to no cycles: looking for them would cost a twentieth of its time.
    gc.disable()
    try:
        code: int = arguments.run(arguments)
    except SpecError as fault:
        print(f"{fault}\n{_count(len(fault.faults), 'fault')} in the spec; nothing was written.", file=sys.stderr)
        return BAD_SPEC
    except PacketError as fault:
        print(fault, file=sys.stderr)
        return fault.exit_code
    except KeyboardInterrupt:
        print("stopped; the packet before is untouched", file=sys.stderr)
        return NOT_BUILT
    except BrokenPipeError:
        sys.stderr.close()
        return NOT_BUILT
    except (MemoryError, RecursionError):
        print("the spec is too large for this machine's memory; nothing was written", file=sys.stderr)
        return NOT_BUILT
    return code


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="packet", description="Turns a spec folder into a build packet for the trailer of a house on wheels."
    )
    parser.add_argument("--version", action="version", version=f"packet {__version__}")
    commands = parser.add_subparsers(required=True, metavar="COMMAND")

    new = commands.add_parser("new", help="write a commented spec folder that already builds")
    new.add_argument("folder", type=Path)
    new.add_argument("--type", choices=["gooseneck", "ball", "king-pin"], default="gooseneck", help="kind of coupling")
    new.add_argument("--units", choices=["us", "si"], default="us", help="units of the folder")
    new.set_defaults(run=_new)

    check = commands.add_parser("check", help="print faults and a table of checks")
    _folder(check)
    check.add_argument("--json", action="store_true", help="print results.json of the owner instead of a table")
    check.set_defaults(run=_check)

    build = commands.add_parser("build", help="build the packet of one recipient")
    _folder(build)
    build.add_argument("--to", choices=RECIPIENTS, default="owner", help="whose packet")
    build.add_argument("--out", type=Path, help="folder of the packet (default: packets/NAME/RECIPIENT)")
    build.add_argument("--strict", action="store_true", help="exit 3 if a check fails")
    build.add_argument("--fresh", action="store_true", help="do not use the cache of rendered documents")
    build.set_defaults(run=_build)

    compare = commands.add_parser("compare", help="set the options of a folder beside its design")
    _folder(compare)
    compare.set_defaults(run=_compare)

    explain = commands.add_parser("explain", help="one check's working, and the smallest change that clears it")
    explain.add_argument("id", metavar="ID", help="id of a check, quantity or window, such as axle.1.rating")
    _folder(explain)
    explain.set_defaults(run=_explain)

    schema = commands.add_parser("schema", help="print the JSON Schema of the spec files")
    schema.set_defaults(run=_schema)

    test = commands.add_parser("test", help="run the tests of this program")
    test.add_argument("--bench", action="store_true", help="run the benchmarks instead")
    test.add_argument("pytest", nargs=argparse.REMAINDER, help="handed on to pytest")
    test.set_defaults(run=_test)
    return parser


def _folder(command: argparse.ArgumentParser) -> None:
    command.add_argument("folder", type=Path, help="spec folder")
    command.add_argument("--units", choices=["us", "si"], help="units shown (default: the project's)")


def _new(arguments: argparse.Namespace) -> int:
    from generator.spec.new import new_folder

    new_folder(arguments.folder, arguments.type, arguments.units)
    print(f"{arguments.folder}: written; next: packet check {arguments.folder}")
    return DONE


def _check(arguments: argparse.Namespace) -> int:
    from generator.design import checks_of, design

    if arguments.json:
        from generator.release.cut import owner_results_json

        it = design(arguments.folder)
        checks = it.results.checks
        sys.stdout.write(owner_results_json(it.model, it.results, it.data, arguments.units))
    else:
        from generator.calc.shown import table, tally
        from generator.units import Show

        model, checks = checks_of(arguments.folder)
        project = model.spec.project
        print(table(checks, Show(arguments.units or project.units, project.currency)))
        print(tally(checks))
    return CHECK_FAILS if any(c.status == "fail" for c in checks) else DONE


def _build(arguments: argparse.Namespace) -> int:
    from generator.build import build
    from generator.store import Store, user_cache

    out = arguments.out or Path("packets") / arguments.folder.resolve().name / arguments.to
    store = Store(None if arguments.fresh else user_cache())
    built = build(arguments.folder, out, arguments.to, arguments.units, store, _progress)
    print(f"{out}: {'unchanged, already current' if built.current else 'packet written'}; open {out / 'index.html'}")
    if built.without_pdf:
        print(f"HTML only: {built.without_pdf}", file=sys.stderr)
    return CHECK_FAILS if arguments.strict and "fail" in built.statuses else DONE


def _compare(arguments: argparse.Namespace) -> int:
    from generator.calc.abreast import abreast
    from generator.design import compared, design
    from generator.units import Show

    it = compared(design(arguments.folder))
    project = it.model.spec.project
    if it.results.comparison is None:
        raise OutputError(f"{arguments.folder}: no options/*.yaml to compare; docs/guide.md shows how one is written")
    print(abreast(it.results.comparison, Show(arguments.units or project.units, project.currency)))
    return DONE


def _explain(arguments: argparse.Namespace) -> int:
    from generator.calc.shown import explanation
    from generator.design import design
    from generator.units import Show

    it = design(arguments.folder, arguments.id)
    project = it.model.spec.project
    text = explanation(arguments.id, it.results, Show(arguments.units or project.units, project.currency))
    if text is None:
        from difflib import get_close_matches

        ids = [r.id for kind in (it.results.checks, it.results.quantities, it.results.windows) for r in kind]
        near = ", ".join(get_close_matches(arguments.id, ids, 5, 0.4)) or "see packet check for the ids"
        raise OutputError(f"{arguments.id}: no such check, quantity or window; near it: {near}")
    print(text)
    return DONE


def _schema(arguments: argparse.Namespace) -> int:
    import json

    from generator.spec.schema import schema

    print(json.dumps(schema(), indent=1, sort_keys=True, ensure_ascii=False))
    return DONE


def _test(arguments: argparse.Namespace) -> int:
    import subprocess

    home = Path(__file__).resolve().parent.parent
    if not (home / "tests").is_dir():
        raise OutputError("the tests come with the source, not with the installed program")
    what = ["tests/bench/run.py"] if arguments.bench else ["-m", "pytest", "-n", "auto"]
    return subprocess.run([sys.executable, *what, *arguments.pytest], cwd=home, check=False).returncode


def _progress(stage: str) -> None:
    print(f"{stage} ...", file=sys.stderr, flush=True)


def _count(number: int, word: str) -> str:
    return f"{number} {word}{'' if number == 1 else 's'}"


if __name__ == "__main__":
    sys.exit(main())
