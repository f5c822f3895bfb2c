"""Sentences of the command line."""

SENTENCES: dict[str, str] = {
    # every command
    "cli-job-help": "the job file, TOML or JSON",
    "cli-working-plan": "Planning {job} ...",
    "cli-working-files": "Drawing into {folder} ...",
    "cli-working-packet": "Setting the sheets for {out} ...",
    # plan
    "cli-plan-help": "say where the line goes, which walls fit and what stops",
    "cli-plan-description": "Plan a job: struck line, what stops or asks for a choice, each wall, shims.",
    "cli-plan-examples": (
        "examples:\n"
        "  setline plan kitchen.toml\n"
        "  setline plan kitchen.toml --out out/kitchen     also plan.json and the drawings\n"
        "  setline plan kitchen.toml --json > plan.json"
    ),
    "cli-plan-json-help": "print the whole plan as JSON (docs/plan.md)",
    "cli-plan-out-help": "write plan.json and every drawing as SVG into this folder",
    "cli-wrote": "Wrote {count} files into {folder}.",
    "cli-title": "{job}, rev {revision}, check {check}",
    "cli-strike": "STRIKE {strike} {way} from the laser line of {set_up}.",
    "cli-other-set-up": "From {set_up} the same line is {strike} {way}.",
    "cli-no-line": "No line to strike yet: nothing is known of the floor under the boxes.",
    "cli-high-spot": "High spot: {point}, wall {wall}, {u} from its left corner, {out}.",
    "cli-read-next": "Read next, down from the laser: {spots}.",
    "cli-finding": "{n} {rank} {where}: {text}",
    "cli-remedy": "    - {text}",
    "cli-more-findings": "And {count} more; the packet has them all.",
    "cli-run-fits": "{name} fits: {boxes} boxes, {marks} marks, from {left} to {right}.",
    "cli-run-short": "{name} is SHORT {over}: DO NOT SET. Its marks are ?.",
    "cli-shims": "{count} points to shim or level",
    "cli-shims-unknown": "{count} not read (they print as ?)",
    "cli-shims-over": "{count} over the limit",
    # why
    "cli-why-help": "say what a mark, a shim or a line rests on",
    "cli-why-description": "Say what a number rests on: readings, arithmetic, the rule and its source.",
    "cli-why-examples": (
        "examples:\n"
        "  setline why kitchen.toml A base 3 left     a mark\n"
        "  setline why kitchen.toml 3 back-left       a shim\n"
        "  setline why kitchen.toml strike            the struck line; S2 strike from another set-up\n"
        "  setline why kitchen.toml high spot --json"
    ),
    "cli-why-mark-help": "name of a mark, shim or line, as the sheets print it",
    "cli-why-json-help": "print the answer as JSON",
    "cli-why-nearest": "Nothing here is called {asked}. Nearest: {nearest}.",
    "cli-why-none": (
        "Nothing here is called {asked}. Names are as on the sheets: A base 3 left, 3 back-left, strike."
    ),
    "cli-why-answer": "{name}: {value}",
    "cli-why-write": "write {write}",
    "cli-why-window": "the joint may lie from {least} to {most}",
    "cli-why-made-of": "made of {made_of}",
    "cli-why-working": "How",
    "cli-why-readings": "Readings",
    "cli-why-rule": "Rule",
    "cli-why-rule-line": "{rule}: {what} ({source})",
    # packet
    "cli-packet-help": "write the sheets for the site as one PDF",
    "cli-packet-description": (
        "Write the packet: cover, findings, floor, readings to take, marks and shims a wall, as-set sheet, "
        "words and signs, story poles at true size."
    ),
    "cli-packet-examples": (
        "examples:\n"
        "  setline packet kitchen.toml                          kitchen-packet.pdf here\n"
        "  setline packet kitchen.toml --paper a4 --out site.pdf\n"
        "  setline packet kitchen.toml --no-story-pole          leave the true-size strips out"
    ),
    "cli-packet-paper-help": "paper; without it the job's, or letter for inches and A4 for metric",
    "cli-packet-out-help": "the PDF to write; without it JOB-packet.pdf in this folder",
    "cli-packet-pole-help": "leave out the true-size strips of the story poles",
    "cli-packet-wrote": "Wrote {out}, {kilobytes} kB. Print it at 100 %.",
    # demo
    "cli-demo-start": "Setline: planning {count} sample kitchens.",
    "cli-demo-wrote": "Planned in {seconds} s. Wrote {folder}: packet.pdf, plan.json, {drawings} drawings.",
}
