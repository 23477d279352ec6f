"""Time of the PDF engine alone: all documents of a design in one process, everything else made before. Prints s."""

import sys
import time
from pathlib import Path

from generator.build import Order, draft
from generator.document.pdf import render_pdf
from generator.spec.read import read_source


def main(folder: str) -> None:
    """Compose first, warm the engine up, then time the rendering."""
    source = read_source(Path(folder))
    documents = draft(source, Order("owner"), lambda stage: None).documents
    render_pdf(min(documents, key=lambda d: len(d.html)))
    start = time.perf_counter()
    for document in documents:
        render_pdf(document)
    print(f"{time.perf_counter() - start:.3f}")


if __name__ == "__main__":
    main(sys.argv[1])
