"""What a rendering process does besides rendering: load the engine, and end with its parent. Imports little."""

import os
import threading
from multiprocessing import parent_process
from multiprocessing.process import BaseProcess

from generator.document.pdf import start_engine
from generator.errors import RenderError


def end_with_parent() -> None:
    """Let a rendering process end when the program that started it is gone, however it went."""
    parent = parent_process()
    if parent is not None:
        threading.Thread(target=_end_after, args=(parent,), daemon=True).start()


def _end_after(parent: BaseProcess) -> None:
    parent.join()
    os._exit(1)


def engine_fault() -> str:
    """Load the PDF engine in this process; why it cannot, or an empty text."""
    try:
        start_engine()
    except RenderError as fault:
        return str(fault)
    return ""
