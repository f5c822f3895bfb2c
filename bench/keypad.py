"""The tape keys on a slow phone: from the press of a key to its paint, and what the page weighs."""

from __future__ import annotations

import shutil
import tempfile
from pathlib import Path
from statistics import median
from typing import Any

from bench.measure import BenchRow

PRESSES = 40
SLOWER = 4

PRESS = """async (presses) => {
    const keys = ["1/4", "3/8"].map((name) => document.querySelector(`.pad [data-key="${name}"]`));
    const painted = () => new Promise((done) => requestAnimationFrame(() => {
        const after = new MessageChannel();
        after.port1.onmessage = done;
        after.port2.postMessage(0);
    }));
    const times = [];
    for (let n = 0; n < presses; n += 1) {
        await new Promise((done) => setTimeout(done, 60));
        const box = keys[n % 2].getBoundingClientRect();
        const at = {pointerId: 1, bubbles: true, clientX: box.left + 5, clientY: box.top + 5};
        const start = performance.now();
        keys[n % 2].dispatchEvent(new PointerEvent("pointerdown", at));
        keys[n % 2].dispatchEvent(new PointerEvent("pointerup", at));
        await painted();
        times.push((performance.now() - start) / 1000);
    }
    return times;
}"""


def run() -> list[BenchRow]:
    """Time key presses in the system's browser; nothing where there is none."""
    program = shutil.which("chromium")
    if program is None:
        return []
    from playwright.sync_api import sync_playwright
    from tests.browser.conftest import PHONE, serve

    from setline.job.read import load_job
    from setline.job.write import to_dict

    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        served = serve(Path(folder))
        job = served.start(to_dict(load_job("examples/larkspur-street.toml")))
        browser = playwright.chromium.launch(executable_path=program, args=["--no-sandbox", "--disable-gpu"])
        context = browser.new_context(**PHONE, service_workers="block")
        page = context.new_page()
        wire = context.new_cdp_session(page)
        sizes: list[float] = []
        wire.send("Network.enable")
        wire.on("Network.loadingFinished", lambda told: sizes.append(told["encodedDataLength"]))
        page.goto(f"{served.address}/j/{job}/walk")
        page.wait_for_selector("html.keys")
        page.wait_for_timeout(500)
        wire.send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
        times: list[Any] = sorted(page.evaluate(PRESS, PRESSES))
        browser.close()
        served.stop()
    slow = f"keypad: key to paint, {SLOWER}x slower"
    return [
        BenchRow(what=f"{slow}, median", seconds=median(times), goal="under 50 ms"),
        BenchRow(what=f"{slow}, p95", seconds=times[-PRESSES // 20]),
        BenchRow(what=f"walk: first visit, {sum(sizes) / 1000:.0f} kB all in", goal="under 100 kB"),
    ]
