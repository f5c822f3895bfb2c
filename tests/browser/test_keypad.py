"""The tape keys under a thumb: every key, every form, every size, and what no thumb meant."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from setline.web.assets import asset
from tests.browser.conftest import LAPTOP, PHONE, Desk, Served, open_desk, settles

pytestmark = pytest.mark.system

CASES = json.loads((Path(__file__).parents[1] / "web" / "keypad_cases.json").read_text(encoding="utf-8"))
FRACTIONS = [
    "even", "1/16", "1/8", "3/16", "1/4", "5/16", "3/8", "7/16",
    "1/2", "9/16", "5/8", "11/16", "3/4", "13/16", "7/8", "15/16",
]  # fmt: skip
SHED: dict[str, Any] = {
    "format": 1,
    "job": {"name": "Tern Lane", "tape": "inch"},
    "room": {"walls": [{"name": "A", "lengths": [{"length": "253 1/4"}]}]},
}


def begin_floor(served: Served, *, metric: bool = False) -> str:
    """Start a room with one long wall whose floor is to be read every two feet; return the job's id."""
    document = {**SHED, "job": {"name": "Tern Lane", "tape": "metric" if metric else "inch"}}
    if metric:
        document["room"] = {"walls": [{"name": "A", "lengths": [{"length": "6430"}]}]}
    job = served.start(document)
    from setline.field_book.entry import Entry

    said = Entry(id=f"{job}-said-1", job=job, device="host", n=500, place="/walk/group/floor", value="every")
    served.site.store.add([said])
    return job


def walk(desk: Desk, served: Served, job: str, query: str = "") -> Page:
    """Open the walk and wait until its keys are alive."""
    desk.page.goto(f"{served.address}/j/{job}/walk{query}")
    expect(desk.page.locator("html.keys")).to_be_attached()
    return desk.page


def press(page: Page, *keys: str) -> None:
    """Press keys, with a pause before NEXT as a thumb has."""
    before = ""
    for key in keys:
        if key in ("next", before):
            page.wait_for_timeout(170)
        before = key
        page.locator(f'.pad [data-key="{key}"]').tap()


def arrives(page: Page, served: Served, job: str, place: str) -> Any:
    """Wait until the server has a value at a place; return it."""
    return settles(page, lambda: served.values(job).get(place))


def kept(page: Page, value: str) -> None:
    """Wait until the page says that a value was kept."""
    expect(page.locator("#said")).to_contain_text(value)


@pytest.mark.parametrize("tape", ["inch", "inch64", "metric"])
def test_the_echo_on_the_phone_gives_the_same_answers_as_the_reader(
    phone: Desk, served: Served, tape: str
) -> None:
    """Every case of the shared table, pressed and read in the browser itself."""
    phone.page.goto(f"{served.address}/jobs")
    found = phone.page.evaluate(
        """async ({keys, tape, cases}) => {
            const tapes = {inch: {units: "inch", strong: 2032}, inch64: {units: "inch", strong: 1016},
                           metric: {units: "metric", strong: 1280}};
            const k = await import(keys), t = await import(tape);
            const read = (text, name) => { const ticks = t.parse(text, tapes[name]);
                return ticks === null ? null : t.show(ticks, tapes[name].units); };
            const pressed = cases.keys.map((c) => {
                let state = k.fresh(tapes[c.tape].units, c.kept || "", "0", c.body || "");
                for (const key of c.keys) state = k.press(state, key);
                const text = k.textOf(state);
                return [text, text ? read(text, c.tape) : null];
            });
            return {pressed, typed: cases.texts.map((c) => read(c.text, c.tape))};
        }""",
        {"keys": asset("keys.js"), "tape": asset("tape.js"), "cases": CASES},
    )
    for case, (text, shown) in zip(CASES["keys"], found["pressed"], strict=True):
        if case["tape"] == tape:
            assert (text, shown) == (case["text"], case.get("shown")), case
    for case, shown in zip(CASES["texts"], found["typed"], strict=True):
        if case["tape"] == tape:
            assert shown == case.get("shown"), case


def test_every_fraction_is_one_press(phone: Desk, served: Served) -> None:
    """Each of the sixteen keys shows its number, alone on a length."""
    page = walk(phone, served, served.start(SHED), "?at=outline+A+wall+line")
    press(page, "4", "8")
    for key in FRACTIONS:
        press(page, key)
        shown = "48" if key == "even" else f"48 {key}"
        expect(page.locator(".value")).to_have_text(shown)


def test_strong_and_shy_exclude_each_other_and_a_thirty_second(phone: Desk, served: Served) -> None:
    """One press sets, another takes off; what they come to stands beside."""
    page = walk(phone, served, served.start(SHED), "?at=outline+A+wall+line")
    press(page, "4", "8", "3/16", "strong")
    expect(page.locator(".value")).to_have_text("48 3/16 strong")
    expect(page.locator(".beside")).to_have_text("= 48 7/32")
    press(page, "shy")
    expect(page.locator(".value")).to_have_text("48 3/16 shy")
    expect(page.locator('[data-key="strong"]')).to_have_attribute("aria-pressed", "false")
    press(page, "plus")
    expect(page.locator(".value")).to_have_text("48 7/32")
    expect(page.locator('[data-key="shy"]')).to_have_attribute("aria-pressed", "false")


def test_feet_and_a_held_hook_show_total_inches(phone: Desk, served: Served) -> None:
    """8' 3 is 99; 111 shown with the 10 at the corner is 101."""
    job = served.start(SHED)
    page = walk(phone, served, job, "?at=heights+A+wall+up+4+from+subfloor")
    press(page, "8", "feet", "3")
    expect(page.locator(".value")).to_have_text("8' 3")
    expect(page.locator(".beside")).to_have_text("99 in")
    expect(page.locator('[data-key="next"]')).to_have_text("NEXT: 8' 3 even")
    press(page, "clear", "held", "held", "2", "6", "3", "1/4")
    expect(page.locator(".beside")).to_have_text("Tape showed 263 1/4, held at 10 = 253 1/4")
    press(page, "next")
    kept(page, "263 and 1 quarter held at 10")
    place = "/room/walls/A/lengths/wall/up 4 from subfloor/1"
    assert arrives(page, served, job, place) == "263 1/4 held at 10"


def test_a_metric_job_has_one_face(phone: Desk, served: Served) -> None:
    """Digits and half a millimetre; hundreds are carried over; no fractions, no feet."""
    job = begin_floor(served, metric=True)
    page = walk(phone, served, job)
    assert page.locator('[data-key="1/16"], [data-key="feet"], [data-key="strong"]').count() == 0
    press(page, "1", "2", "0", "5", "half", "next")
    kept(page, "1205.5")
    expect(page.locator(".carried")).to_have_text("12")
    press(page, "0", "3", "next")
    kept(page, "Kept 1203.")


def test_twenty_floor_readings_take_few_taps_and_no_scrolling(phone: Desk, served: Served) -> None:
    """Whole inches are carried over: a fraction and NEXT each. The phone's own keyboard stays shut."""
    job = begin_floor(served)
    page = walk(phone, served, job)
    taps = 0
    for count in range(20):
        prompt = page.locator("#stand").inner_text()
        keys = ["4", "8", "3/16", "next"] if count == 0 else [FRACTIONS[count % 5], "next"]
        press(page, *keys)
        taps += len(keys)
        expect(page.locator("#stand")).not_to_have_text(prompt)
        assert page.evaluate("[scrollX, scrollY]") == [0, 0]
        assert page.evaluate("document.activeElement.tagName") not in {"INPUT", "TEXTAREA"}
    assert taps <= 45
    assert settles(page, lambda: len(served.values(job, "/floor/set_ups/S1/readings/")) == 20)
    expect(page.locator("#kept")).to_have_text("saved, sent")


TYPED = {
    "9' 4 3/16": "112 3/16", "9ft 4 3/16": "112 3/16", "9-4-3/16": "112 3/16", '112 3/16"': "112 3/16",
    "112-3/16": "112 3/16", "134.5": "134 1/2", "134½": "134 1/2", "148 3/16+": "148 7/32",
    "148 3/16 heavy": "148 7/32", "148 3/16 full": "148 7/32", "148 3/16-": "148 5/32",
    "148 3/16 scant": "148 5/32", "one hundred forty-eight and three sixteenths": "148 3/16",
    "2875 mm": "113 3/16",
}  # fmt: skip


@pytest.mark.parametrize("text", TYPED)
def test_each_typed_form_is_taken(phone: Desk, served: Served, text: str) -> None:
    """Typed or dictated into the field; the phone reads the plain ones, the server the rest."""
    job = served.start(SHED)
    page = walk(phone, served, job, "?at=heights+A+wall+up+4+from+subfloor")
    press(page, "type")
    page.fill("#text", text)
    page.keyboard.press("Enter")
    expect(page.locator("#asking p")).to_contain_text(f"{TYPED[text]} is ")
    asking = page.locator("#asking button", has_text="It's right, keep")
    expect(asking).to_be_visible()  # far from the 253 1/4 at the line
    page.wait_for_timeout(350)
    asking.tap()
    assert arrives(page, served, job, "/room/walls/A/lengths/wall/up 4 from subfloor/1") == text


@pytest.mark.parametrize(
    ("text", "labels"),
    [
        ("4 8 1/4", ["4' 8 1/4 = 56 1/4", "48 1/4", "type again"]),
        ("48 3 16", ["48 3/16", "type again"]),
        ("875", ["875 mm = ~34 29/64", "875 in = 72' 11", "type again"]),
        ("3/10", ["5/16", "9/32", "type again"]),
    ],
)
def test_an_ambiguous_form_gives_buttons_and_no_value(
    phone: Desk, served: Served, text: str, labels: list[str]
) -> None:
    """Two buttons, never a guess; until one is pressed nothing is kept."""
    job = served.start(SHED)
    page = walk(phone, served, job, "?at=heights+A+wall+up+4+from+subfloor")
    press(page, "type")
    page.fill("#text", text)
    page.keyboard.press("Enter")
    expect(page.locator("#asking button")).to_have_text(labels)
    assert page.input_value("#text") == text
    assert "/room/walls/A/lengths/wall/up 4 from subfloor/1" not in served.values(job)


def test_a_reading_far_from_its_neighbours_is_asked_about_on_the_phone(phone: Desk, served: Served) -> None:
    """48 15/16, then 1/16: both whole inches are offered."""
    job = begin_floor(served)
    page = walk(phone, served, job)
    press(page, "4", "8", "15/16", "next")
    kept(page, "48 and 15 sixteenths")
    press(page, "15/16", "next")
    kept(page, "Next: Wall A, 252")
    press(page, "1/16", "next")
    expect(page.locator("#asking p")).to_have_text("48 1/16 is 7/8 less than the spots beside it (48 15/16).")
    expect(page.locator("#asking button")).to_have_text(["Read again", "It's right, keep", "It was 49 1/16"])
    page.wait_for_timeout(350)
    page.locator("#asking button").nth(2).tap()
    kept(page, "Kept 49 and 1 sixteenth.")


def test_undo_takes_back_the_last_thing_kept_also_after_a_reload(phone: Desk, served: Served) -> None:
    """The spot comes back with the old value crossed out; the entry is taken back, not erased."""
    job = begin_floor(served)
    page = walk(phone, served, job)
    press(page, "4", "8", "1/4", "next")
    kept(page, "48 and 1 quarter")
    press(page, "3/8", "next")
    kept(page, "48 and 3 eighths")
    page.reload()
    expect(page.locator("html.keys")).to_be_attached()
    press(page, "undo")
    expect(page.locator("#said")).to_have_text("Took back A 1 toe: 48 and 3 eighths.")
    expect(page.locator(".beside s")).to_have_text("48 3/8")
    expect(page.locator("#stand")).to_have_text("Wall A, 1 from LEFT corner, TOE line.")
    press(page, "undo")
    expect(page.locator("#said")).to_have_text("Took back A 1 wall: 48 and 1 quarter.")
    assert settles(page, lambda: served.values(job, "/floor/") == {})
    history = served.site.store.history(job, "/floor/set_ups/S1/readings/A/wall/1/1")
    assert [entry.value for entry in history] == ["48 1/4", None]


def test_skip_asks_why_in_one_tap(phone: Desk, served: Served) -> None:
    """The reason is kept, the walk goes on."""
    job = begin_floor(served)
    page = walk(phone, served, job)
    press(page, "skip")
    page.wait_for_timeout(350)
    page.locator("#skips button", has_text="Can't reach").tap()
    kept(page, "Skipped A 1 wall: can't reach.")
    assert arrives(page, served, job, "/walk/skipped/floor A 1 wall") == "can't reach"


POINTER = """(events) => {
    for (const [key, kind, pointerId, beside] of events) {
        const element = document.querySelector(`.pad [data-key="${key}"]`);
        const box = element.getBoundingClientRect();
        const clientX = beside === undefined ? box.left + 5 : box.right + beside;
        const at = {pointerId, bubbles: true, pointerType: "touch", clientX, clientY: box.top + 5};
        element.dispatchEvent(new PointerEvent(`pointer${kind}`, at));
    }
}"""


def test_palms_bounces_and_slips_take_no_key(phone: Desk, served: Served) -> None:
    """Two touches take none; a digit within 90 ms of itself is dropped; 10 px beside a key still is it."""
    page = walk(phone, served, served.start(SHED), "?at=outline+A+wall+line")
    value = page.locator(".value")

    def touch(*events: list[Any]) -> None:
        page.evaluate(POINTER, list(events))

    touch(["4", "down", 1], ["4", "down", 2], ["4", "up", 1], ["4", "up", 2])
    expect(value).to_have_text("__")
    touch(["4", "down", 1], ["4", "up", 1], ["4", "down", 1], ["4", "up", 1])
    expect(value).to_have_text("4")
    touch(["7", "down", 1], ["7", "up", 1, 9])
    expect(value).to_have_text("47")
    touch(["8", "down", 1], ["8", "up", 1, 14])
    expect(value).to_have_text("47")
    touch(["9", "down", 1], ["9", "up", 1], ["next", "down", 1], ["next", "up", 1])
    expect(value).to_have_text("479")  # NEXT so soon after a key was not meant
    assert page.locator("#said").inner_text() == ""


def test_a_double_tap_does_not_enlarge_the_page(phone: Desk, served: Served) -> None:
    """Fast thumbs stay on the keys; pinching is not locked."""
    page = walk(phone, served, begin_floor(served))
    for key in ("5", "6"):
        press(page, key, key)
    assert page.evaluate("visualViewport.scale") == 1
    actions = page.eval_on_selector_all(".pad .key", "keys => keys.map(k => getComputedStyle(k).touchAction)")
    assert set(actions) == {"manipulation"}
    assert "user-scalable" not in (page.get_attribute("meta[name=viewport]", "content") or "")


SIZES = """() => {
    const seen = (e) => e.getClientRects().length > 0;
    const size = (e) => { const r = e.getBoundingClientRect(); return [r.width, r.height]; };
    const box = (e) => { const r = e.getBoundingClientRect(); return [r.left, r.top, r.right, r.bottom]; };
    const clipped = (e) => e.firstElementChild.scrollWidth > e.clientWidth + 1;
    const all = "main a, main button, main summary, main input, main .choice, .foot a, .top a";
    const within = ".key, .heard, [type=hidden], .choice input, td a, th a, li a, p a";
    return {
        wide: document.documentElement.scrollWidth,
        keys: [...document.querySelectorAll(".pad .key")].filter(seen).map((e) => (
            {name: e.dataset.key, help: e.matches(".help, .feet"), box: box(e), clipped: clipped(e)})),
        other: [...document.querySelectorAll(all)].filter((e) => seen(e) && !e.matches(within))
            .map((e) => [e.outerHTML.slice(0, 80), ...size(e)]),
    };
}"""


@pytest.mark.parametrize(
    ("width", "height"), [(320, 640), (360, 640), (390, 844), (430, 932), (780, 1024), (1280, 800)]
)
def test_keys_are_large_enough_and_none_overlap(
    chromium: Browser, served: Served, width: int, height: int
) -> None:
    """Fraction, digit and NEXT keys 60 x 56, helper keys 60 x 48, all else 44; with large text too."""
    kind = LAPTOP if width >= 1000 else PHONE
    desk = open_desk(chromium, {**kind, "viewport": {"width": width, "height": height}})
    page = walk(desk, served, served.sample("larkspur-street"))
    for text in ("18px", "36px"):
        page.evaluate(f"document.documentElement.style.setProperty('--t-body', '{text}')")
        for face in ("fraction", "whole"):
            page.evaluate(f"document.querySelector('.pad').dataset.face = '{face}'")
            found = page.evaluate(SIZES)
            assert found["wide"] <= width
            keys_fit(found["keys"], (text, face))
            for what, wide, high in found["other"]:
                assert wide >= 43.5, what
                assert high >= 43.5, what
    desk.context.close()
    assert desk.troubles == []


def keys_fit(keys: list[dict[str, Any]], where: tuple[str, str]) -> None:
    """Assert that each key is large enough, shows all of its name, and stands clear of the others."""
    for key in keys:
        left, top, right, bottom = key["box"]
        least = (60, 48) if key["help"] else (60, 56)
        assert right - left >= least[0] - 0.5, (where, key)
        assert bottom - top >= least[1] - 0.5, (where, key)
        assert not key["clipped"], (where, key)
    boxes = [key["box"] for key in keys]
    for at, one in enumerate(boxes):
        for two in boxes[at + 1 :]:
            apart = one[2] <= two[0] or two[2] <= one[0] or one[3] <= two[1] or two[3] <= one[1]
            assert apart, (where, one, two)


def test_the_keys_work_from_a_number_pad_in_a_pocket(laptop: Desk, served: Served) -> None:
    """Digits, stroke, plus for strong, Enter for NEXT, Backspace, Ctrl+Z."""
    job = begin_floor(served)
    page = walk(laptop, served, job)
    page.evaluate("document.activeElement.blur()")
    page.keyboard.type("48 3/16+")
    expect(page.locator(".value")).to_have_text("48 3/16 strong")
    page.keyboard.press("+")
    page.keyboard.press("Backspace")
    page.keyboard.type("6")
    expect(page.locator(".value")).to_have_text("48 3/16")
    page.keyboard.press("Enter")
    expect(page.locator("#said")).to_contain_text("Kept 48 and 3 sixteenths.")
    page.evaluate("document.activeElement.blur()")
    page.keyboard.press("Control+z")
    expect(page.locator("#said")).to_have_text("Took back A 1 wall: 48 and 3 sixteenths.")


def test_the_keys_are_one_stop_for_tab_with_arrows_inside(phone: Desk, served: Served) -> None:
    """A switch or a keyboard walks the grid."""
    page = walk(phone, served, served.start(SHED), "?at=outline+A+wall+line")
    assert page.locator('.pad .key[tabindex="0"]').count() == 1
    page.focus('.pad .key[data-key="5"]')
    page.keyboard.press("ArrowDown")
    expect(page.locator('.key[data-key="0"]')).to_be_focused()
    page.keyboard.press("ArrowLeft")
    expect(page.locator('.key[data-key="9"]')).to_be_focused()
    page.keyboard.press("Enter")
    expect(page.locator(".value")).to_have_text("9")


def test_the_laptop_s_table_goes_down_with_enter(laptop: Desk, served: Served) -> None:
    """Typed as the tape shows it; each line is kept at once and the next one is ready."""
    job = begin_floor(served)
    page = walk(laptop, served, job)
    first = page.locator('input[name="text floor A 1 wall"]')
    expect(first).to_be_focused()
    first.fill("48 1/4")
    first.press("Enter")
    second = page.locator('input[name="text floor A 1 toe"]')
    expect(second).to_be_focused()
    second.fill("48 3/8 shy")
    second.press("Enter")
    expect(page.locator('input[name="text floor A 252 wall"]')).to_be_focused()
    start = "/floor/set_ups/S1/readings/A"
    assert arrives(page, served, job, f"{start}/wall/1/1") == "48 1/4"
    assert arrives(page, served, job, f"{start}/toe/1/1") == "48 3/8 shy"


def test_a_left_thumb_has_next_on_the_left(phone: Desk, served: Served) -> None:
    """A setting of this phone; it stays."""
    page = walk(phone, served, begin_floor(served))
    page.locator(".leave summary").tap()
    page.locator("label", has_text="Left thumb").tap()
    page.locator(".leave summary").tap()
    page.reload()
    expect(page.locator("html.keys")).to_be_attached()
    left = page.locator('[data-key="next"]').bounding_box()
    undo = page.locator('[data-key="undo"]').bounding_box()
    assert left is not None
    assert undo is not None
    assert left["x"] < undo["x"]


def test_without_scripts_the_form_reads_asks_and_keeps(chromium: Browser, served: Served) -> None:
    """A field, NEXT, and the server's questions: everything works by plain posts."""
    desk = open_desk(chromium, PHONE, java_script_enabled=False)
    page, job = desk.page, begin_floor(served)
    page.goto(f"{served.address}/j/{job}/walk")
    expect(page.locator(".pad")).to_be_hidden()
    page.fill("#text", "4 8 1/4")
    page.keyboard.press("Enter")
    expect(page.locator("#asking button")).to_have_text(["4' 8 1/4 = 56 1/4", "48 1/4"])
    assert page.input_value("#text") == "4 8 1/4"
    page.locator("#asking button").nth(1).tap()
    expect(page.locator("#said")).to_have_text("Kept A 1 wall: 48 1/4.")
    page.locator("button", has_text="Undo").first.tap()
    expect(page.locator("#told")).to_be_visible()
    assert settles(page, lambda: served.values(job, "/floor/") == {})
    desk.context.close()


def test_the_first_page_and_the_walk_weigh_little(chromium: Browser, served: Served) -> None:
    """All in, as it goes over the air: under 100 kB."""
    phone = open_desk(chromium, PHONE, service_workers="block")
    wire = phone.context.new_cdp_session(phone.page)
    wire.send("Network.enable")
    sizes: list[float] = []
    wire.on("Network.loadingFinished", lambda told: sizes.append(told["encodedDataLength"]))
    job = served.sample("larkspur-street")
    for page in ("", "/walk"):
        sizes.clear()
        wire.send("Network.clearBrowserCache")
        phone.page.goto(f"{served.address}/j/{job}{page}")
        settles(phone.page, lambda: sum(sizes) > 5_000)
        phone.page.wait_for_timeout(300)
        assert 5_000 < sum(sizes) < 100_000, sizes
    phone.context.close()


def test_long_lengths_are_never_clipped(phone: Desk, served: Served) -> None:
    """31' 11 15/16 strong, held at 10, stands whole in the readout."""
    page = walk(phone, served, served.start(SHED), "?at=outline+A+wall+line")
    press(page, "held", "held", "3", "1", "feet", "1", "1", "15/16", "strong")
    expect(page.locator(".value")).to_have_text("31' 11 15/16 strong")
    fits = page.eval_on_selector(
        ".readout", "e => e.scrollWidth <= e.clientWidth && e.scrollHeight <= e.clientHeight"
    )
    assert fits
    assert page.locator(".beside").inner_text().endswith("held at 10 = 373 31/32")
