"""The tasks a worker can do, each a function of plain values with plain values as its answer. Nothing here knows of files or pages."""

from importlib import import_module

from .told import Told

# task -> the module and function that do it; loaded when it is first asked for.
TASKS = {
    "check": ("live_report", "live_report"),
    "summary": ("summary", "summary"),
    "small": ("summary", "small_picture"),
    "pieces": ("summary", "pieces"),
    "sheet": ("panels", "sheet"),
    "chart": ("panels", "chart"),
    "yarn": ("panels", "yarn"),
    "surface": ("shapes", "surface"),
    "picture": ("shapes", "picture"),
    "together": ("shapes", "together"),
    "schematic": ("shapes", "schematic"),
    "sizes": ("sizes_panel", "sizes"),
    "try_eases": ("sizes_panel", "try_eases"),
    "swatches": ("swatches_panel", "swatches"),
    "reckon": ("swatches_panel", "reckon"),
    "measure": ("measure_panel", "measure"),
    "measured_sheet": ("measure_panel", "measured_sheet"),
    "measure_form": ("measure_panel", "form"),
    "words": ("words_panel", "words"),
    "keeper": ("keeper_rows", "keeper_rows"),
    "compare": ("compare", "compare"),
    "tidy": ("tidy", "tidy"),
    "mends": ("mends_panel", "mends"),
    "make": ("output", "make"),
}


def answer(task: str, args: tuple, step) -> tuple:
    """("done", value), or ("told", (status, what, words, more)) where it can't be done. step(done, words): told on the way by long tasks."""
    try:
        if task == "ready":
            return "done", _ready()
        module, name = TASKS[task]
        does = getattr(import_module(f"hookwright.desk.workbench.{module}"), name)
        return "done", does(*args, step=step) if task == "make" else does(*args)
    except Told as told:
        return "told", (told.status, told.what, told.words, told.more)
    except (MemoryError, RecursionError):
        from .strings import t

        return "told", (503, "too-big", t("too-big-to-check"), {})
    except Exception as slip:  # ours, never hers
        return "told", (500, "own-slip", _own_slip(slip), {})


def _ready() -> bool:
    """Loads what a first check needs."""
    import hookwright

    hookwright.check("Row 1: Ch 11, sc in 2nd ch from hook and in each ch across. 10 sc\nRow 2: Ch 1, turn, [sc in next 2 sts] 5 times. 10 sc\n")
    return True


def _own_slip(slip: Exception) -> str:
    import os

    from .strings import t

    if os.environ.get("HOOKWRIGHT_TRACE"):
        import traceback

        traceback.print_exception(slip)
    trace, place = slip.__traceback__, ""
    while trace is not None:
        file = trace.tb_frame.f_code.co_filename
        if f"{os.sep}hookwright{os.sep}" in file:
            place = f"{file.rpartition(f'{os.sep}hookwright{os.sep}')[2]}, line {trace.tb_lineno}"
        trace = trace.tb_next
    return t("own-slip", where=f"{place}: {type(slip).__name__}")
