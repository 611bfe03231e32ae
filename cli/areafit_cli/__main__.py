"""The entry point, and the one place where an exception becomes a message and an exit status."""

import contextlib
import gc
import os
import sys
from typing import Any, NoReturn

from areafit.version import __version__


def main() -> NoReturn:
    """Run the command and leave with its status."""
    gc.disable()  # a run is short: collecting garbage costs more time than it gives memory
    # What else is installed beside a checker does not run in it, nor is it looked for.
    os.environ["PYDANTIC_DISABLE_PLUGINS"] = "__all__"
    status = _flushed(run(sys.argv[1:]))
    if sys.stderr is not None:
        with contextlib.suppress(OSError):
            sys.stderr.flush()
    os._exit(status)  # all is written: taking a long list apart takes as long as reading it


def run(arguments: list[str]) -> int:
    """Run the command with these arguments and return its exit status."""
    try:
        if arguments == ["--version"] and _said_version():
            return 0
        return _guarded(arguments)
    except KeyboardInterrupt:  # while importing
        return 130
    except Exception as error:  # noqa: BLE001 - whatever it is, it must not read as a verdict
        return _bug(error)


def _said_version() -> bool:
    """Print the version before anything large is imported, where it can be printed."""
    try:
        sys.stdout.write(f"areafit {__version__}\n")
        sys.stdout.flush()
    except (OSError, AttributeError):  # full, or closed
        return False
    return True


def _flushed(status: int) -> int:
    """The status, or that of a failure where what was printed does not reach its reader."""
    try:
        if sys.stdout is not None:
            sys.stdout.flush()
    except OSError as error:
        from areafit_cli import terminal  # noqa: PLC0415 - seldom

        terminal.mute()
        if isinstance(error, BrokenPipeError):  # who reads has seen enough
            return status
        terminal.note(f"areafit: cannot write standard output: {error.strerror or error}")
        return max(status, 2)
    return status


def _guarded(arguments: list[str]) -> int:
    from areafit_cli import terminal  # noqa: PLC0415 - see `run`
    from areafit_cli.errors import CallError, Exit  # noqa: PLC0415

    terminal.prepare()
    try:
        return _dispatch(arguments)
    except CallError as error:
        for line in error.args:
            terminal.note(f"areafit: {line}")
        return Exit.WRONG_INPUT
    except KeyboardInterrupt:
        return Exit.INTERRUPTED
    except BrokenPipeError:
        terminal.mute()
        return Exit.PASSED
    except OSError as error:  # no space, no rights: nothing that a report could be wrong about
        terminal.mute()
        about = f" ({error.filename})" if error.filename else ""
        terminal.note(f"areafit: stopped by the system: {error.strerror or error}{about}")
        return Exit.WRONG_INPUT
    except Exception as error:
        errors = sys.modules.get("areafit.errors")  # not loaded: it can be none of its own
        if errors is None or not isinstance(error, errors.InputErrors):
            raise
        for each in error.errors:
            terminal.note(str(each))
        return Exit.WRONG_INPUT


def _dispatch(arguments: list[str]) -> int:
    answered = _quickly(arguments[0], arguments[1:]) if arguments else None
    if answered is not None:
        return answered
    from areafit_cli.app import app  # noqa: PLC0415 - typer takes longer than `--version`

    before = sys.stdout
    try:
        status = app(arguments, prog_name="areafit", standalone_mode=False)
    except SystemExit as stop:
        # A pipe that was closed early: typer puts another stream in place, and rich, which draws
        # help, stops with 1, which help has no other use for.
        if sys.stdout is not before or (
            stop.code == 1 and {"--help", "-h", "help"} & set(arguments)
        ):
            return 0
        return stop.code if isinstance(stop.code, int) else 0
    except Exception as error:
        say = getattr(error, "format_message", None)  # typer's own: a mistake of the call
        if say is None:
            raise
        return _wrong_call(say(), error)
    return status if isinstance(status, int) else 0


def _wrong_call(message: str, error: Any) -> int:  # noqa: ANN401 - typer names no type of it
    """Tell of a mistake of the call in one line, as of every other."""
    from areafit_cli import terminal  # noqa: PLC0415 - see `run`

    if type(error).__name__ != "NoArgsIsHelpError":  # which has printed help
        path = error.ctx.command_path if getattr(error, "ctx", None) else "areafit"
        said = message.strip().rstrip(".")
        terminal.note(f"areafit: {said[:1].lower()}{said[1:]}; `{path} --help` tells what serves")
    return 2


def _quickly(command: str, arguments: list[str]) -> int | None:
    """The status of a usual call, answered without typer; None where typer must look at it."""
    stated: Any
    if command == "part":
        from areafit_cli import query  # noqa: PLC0415 - other commands need none of it

        stated = query.read_call(arguments)
        return None if stated is None else query.answer(stated)
    if command == "check":
        from areafit_cli import checking  # noqa: PLC0415 - as above

        stated = checking.read_call(arguments)
        return None if stated is None else checking.check(**stated)
    return None


def _bug(error: Exception) -> int:
    """Tell of an error of ours, with nothing of ours but what cannot fail."""
    import traceback  # noqa: PLC0415 - as above

    from areafit_cli.safe_text import clean  # noqa: PLC0415 - as above

    lines = [
        "areafit: internal error, a bug in areafit; nothing was decided about the list.",
        f"  {type(error).__name__}: {str(error)[:300]}",
    ]
    for step in traceback.extract_tb(error.__traceback__)[-5:]:
        file = step.filename.replace("\\", "/").rpartition("/")[2]
        lines.append(f"  {file}:{step.lineno} {step.name}")
    lines.append("  Please report it with these lines and, if you may, the list.")
    with contextlib.suppress(OSError, ValueError, AttributeError):  # full or closed
        sys.stderr.write("".join(f"{clean(line)}\n" for line in lines))
        sys.stderr.flush()
    return 3


if __name__ == "__main__":
    main()
