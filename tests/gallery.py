"""Every picture and page as PNG, to look at: ``python -m tests.gallery`` fills out/gallery/.

Of both samples: each drawing, each page of the packet on letter and A4, and each page of the app on a phone
and on a laptop (in ``pages/``). Of the plans made for tests: each drawing. ``python -m tests.gallery pages``
makes the pages of the app alone. Nothing here is compared; it is for eyes.
"""

from __future__ import annotations

import shutil
import sys
from pathlib import Path
from typing import Any

import pypdfium2
import typst

from setline.drawings.font import font_folder
from setline.drawings.shapes import Drawing
from setline.drawings.svg import to_svg
from setline.job.job import tape_of
from setline.job.read import load_job
from setline.odds import doubts
from setline.packet import packet
from setline.rules import rule_book
from setline.stages import plan
from tests.drawings.drawing_set import drawings_of
from tests.drawings.nasty_plans import NASTY
from tests.drawings.sample_plans import inch_sample, metric_sample
from tests.gallery_pages import shoot_pages

ROOT = Path(__file__).parents[1]
GALLERY = ROOT / "out" / "gallery"
MADE = {"made-inch": inch_sample, "made-metric": metric_sample, **NASTY}
_PPI = 150
_LONGEST = 1000.0
"""A drawing longer than this is shown at fewer dots. [mm]"""


def main(only: list[str]) -> None:
    """Write the gallery anew, or the part of it that is named."""
    shutil.rmtree(GALLERY / "pages" if only else GALLERY, ignore_errors=True)
    if not only:
        _write_sheets()
    for target in shoot_pages(GALLERY / "pages"):
        _tell(target)


def _write_sheets() -> None:
    """Write drawings and packets."""
    for path in sorted((ROOT / "examples").glob("*.toml")):
        job = load_job(path)
        result = plan(job)
        for drawing in drawings_of(result):
            _write(GALLERY / path.stem, drawing)
        for paper in ("letter", "a4"):
            book = rule_book(job.rules, tape=tape_of(job))
            pages = packet(result, job, book, paper=paper, doubts=doubts(job, result))
            _write_pages(GALLERY / path.stem / f"packet-{paper}", pages)
    for name, make in MADE.items():
        for drawing in drawings_of(make()):
            _write(GALLERY / name, drawing)


def _write(folder: Path, drawing: Drawing) -> None:
    """Write one drawing."""
    folder.mkdir(parents=True, exist_ok=True)
    page = f"#set page(width: {drawing.width + 10}mm, height: {drawing.height + 10}mm, margin: 5mm)\n"
    sources: Any = {"main": f'{page}#image("drawing.svg")'.encode(), "drawing.svg": to_svg(drawing).encode()}
    fonts = typst.Fonts(include_system_fonts=False, font_paths=[str(font_folder())])
    dots = _PPI * min(1.0, _LONGEST / drawing.width)
    picture = typst.compile(sources, font_paths=fonts, format="png", ppi=dots)
    _save(folder / f"{drawing.name}.png", picture)


def _write_pages(folder: Path, pdf: bytes) -> None:
    """Write every page of a PDF."""
    folder.mkdir(parents=True, exist_ok=True)
    document = pypdfium2.PdfDocument(pdf)
    for number, page in enumerate(document, 1):
        target = folder / f"page-{number:02}.png"
        page.render(scale=_PPI / 72).to_pil().save(target)
        _tell(target)
    document.close()


def _save(target: Path, picture: Any) -> None:
    target.write_bytes(picture)
    _tell(target)


def _tell(target: Path) -> None:
    sys.stdout.write(f"{target.relative_to(ROOT)}\n")


if __name__ == "__main__":
    main(sys.argv[1:])
