"""A photo taken with a phone: made smaller there, upright, kept where it belongs, deleted."""

from __future__ import annotations

import io
import re
from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import Request, expect

from tests.browser.conftest import Desk, Served
from tests.rooms import plain_room

pytestmark = pytest.mark.system

LYING = 6
"""What a phone that was held upright writes beside a picture that lies on its side."""


def _as_a_phone_takes_it(path: Path) -> Path:
    """Write a picture of 12 million pixels that lies on its side and says so; its upper left is black."""
    picture = Image.effect_noise((4000, 3000), 40).convert("RGB")
    picture.paste("black", (0, 2000, 1000, 3000))  # lying: the lower left is the upper left once it stands
    beside = Image.Exif()
    beside[0x0112] = LYING
    picture.save(path, "JPEG", exif=beside)
    return path


def test_a_large_photo_is_made_smaller_on_the_phone_and_kept_upright(
    served: Served, phone: Desk, tmp_path: Path
) -> None:
    """What goes over the air is no larger than what is kept; it stands at its box and can be deleted."""
    job, page = served.start(plain_room()), phone.page
    photo = _as_a_phone_takes_it(tmp_path / "taken.jpg")
    sent: list[int] = []

    def count(request: Request) -> None:
        if request.method == "POST" and request.url.endswith("/photos"):
            sent.append(int(request.header_value("content-length") or 0))

    page.goto(f"{served.address}/j/{job}/set/3")
    page.get_by_role("link", name="Add a photo").click()
    choose = page.get_by_label("or choose a picture")
    choose.set_input_files(photo)
    expect(choose).to_have_value(re.compile(r"photo\.jpg$"), timeout=20_000)
    page.on("request", count)
    page.get_by_role("button", name="Keep the photo").click()
    expect(page.get_by_text("The photo is kept.")).to_be_visible()
    assert served.site.store.photos is not None
    (kept,) = served.site.store.photos.of_job(job)
    assert (kept.place, kept.width, kept.height) == ("/order/boxes/3", 1200, 1600)
    content = served.site.store.photos.content(job, kept.id)
    corner = Image.open(io.BytesIO(content)).convert("L").crop((50, 50, 150, 150))
    assert max(corner.tobytes()) < 40
    assert sent[0] < photo.stat().st_size / 2
    page.get_by_role("link", name="box 3").first.click()
    page.get_by_text("Delete this photo").click()
    page.get_by_role("button", name="Delete it").click()
    expect(page.get_by_text("The photo is deleted.")).to_be_visible()
    assert served.site.store.photos.of_job(job) == ()
