"""Sentences of the command line."""

SENTENCES: dict[str, str] = {
    # the program
    "cli-description": (
        "Readings in, marks out: where every cabinet, shim and opening goes before the first is fixed."
    ),
    "cli-commands": "commands",
    "cli-examples": (
        "examples:\n"
        '  setline new "Pear Tree Court"        a job to start from\n'
        "  setline check pear-tree-court.toml   what is wrong, what to know\n"
        "  setline plan pear-tree-court.toml    the line, the walls, the shims\n"
        "  setline packet pear-tree-court.toml  the sheets for the site, as PDF\n"
        "  setline check --help                 more of one command\n"
        "\n"
        "exit codes: 0 fine, 1 a stop among the findings (check), 2 the file or the call is wrong"
    ),
    "cli-no-command": "there is no command {given}",
    "cli-faults": "{count} things to mend; nothing was planned.",
    "cli-not-written": "it cannot be opened or written ({why})",
    # new
    "cli-new-help": "write a job to start from",
    "cli-new-description": (
        "Write a small whole kitchen with a word beside everything. It plans as it stands;\n"
        "put your own numbers in place of its own. A file that is there already is left alone."
    ),
    "cli-new-examples": (
        "examples:\n"
        '  setline new "Pear Tree Court"                    pear-tree-court.toml here\n'
        '  setline new "Pear Tree Court" --tape metric\n'
        '  setline new "Pear Tree Court" --out jobs/14.toml'
    ),
    "cli-new-name-help": "what the job is called",
    "cli-new-tape-help": "the crew's tape (inch unless said)",
    "cli-new-out-help": "the file to write; without it the name with .toml, in this folder",
    "cli-new-json-help": "say as JSON what was written",
    "cli-new-there": "this file is there already and is left alone; name another",
    "cli-new-wrote": "Wrote {path}. Put your own numbers in, then: setline check {path}",
    # check
    "cli-check-help": "read a job through and say what to know before a box is fixed",
    "cli-check-description": (
        "Read a job, plan it and print every finding, the worst first. What is wrong in the\n"
        "file itself is told all at once, with its place, its line and an example."
    ),
    "cli-check-examples": (
        "examples:\n"
        "  setline check kitchen.toml\n"
        "  setline check kitchen.toml --json\n"
        "  setline check kitchen.toml && setline packet kitchen.toml\n"
        "\n"
        "exit codes: 0 nothing stops, 1 a stop among the findings, 2 the file or the call is wrong"
    ),
    "cli-check-json-help": "print the findings as JSON",
    "cli-check-fine": "{job}: nothing to say against it.",
    "cli-check-findings": "{job}: nothing stops. {count} to read:",
    "cli-check-stops": "{job}: STOP, {stops} of {count} findings.",
    # rules
    "cli-rules-help": "list the trade's rules with their sources",
    "cli-rules-description": (
        "List the rules that a plan works by: value, what it says, source, edition and kind.\n"
        "A job overrides any of them under [rules]."
    ),
    "cli-rules-examples": (
        "examples:\n"
        "  setline rules                       all of them\n"
        "  setline rules shim                  those that have the word in them\n"
        "  setline rules --tape metric         with the values of a metric job\n"
        "  setline rules --job kitchen.toml    as this job overrides them"
    ),
    "cli-rules-word-help": "show only rules that have all of these words in them",
    "cli-rules-job-help": "the job whose own values are laid over",
    "cli-rules-tape-help": "values for an inch or a metric tape",
    "cli-rules-json-help": "print them as JSON",
    "cli-rules-none": "no rule has these words in it; without a word all are listed",
    "cli-rules-cost": "{hours} h, {days} days",
    # schema
    "cli-schema-help": "print the form of a job file as JSON Schema",
    "cli-schema-description": "Print the JSON Schema (2020-12) of a job file; TOML is the same document.",
    "cli-schema-examples": ("examples:\n  setline schema > job.schema.json"),
    "cli-schema-json-help": "nothing changes: a schema is JSON",
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
    "cli-finding": "{n} {rank} {text}",
    "cli-remedy": "    - {text}",
    "cli-more-findings": "And {count} more; the packet has them all.",
    "cli-run-fits": "{name} fits: {boxes}, {marks} marks, from {left} to {right}.",
    "cli-one-box": "1 box",
    "cli-boxes": "{count} boxes",
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
        "  setline why kitchen.toml limit dishwasher 21, least height\n"
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
    "cli-why-fixed": "the joint, {least}, cannot move",
    "cli-why-made-of": "made of {made_of}",
    "cli-why-working": "How",
    "cli-why-readings": "Readings",
    "cli-why-rule": "Rule",
    "cli-why-rule-line": "{rule}: {what} ({source})",
    # packet
    "cli-packet-help": "write the sheets for the site as one PDF",
    "cli-packet-description": (
        "Write the packet: cover, findings, floor, readings to take, marks and shims a wall,\n"
        "as-set sheet, words and signs, story poles at true size."
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
    "cli-serve-help": "run the app for phones and laptops",
    "cli-serve-description": (
        "Run the app. It answers this machine alone;\nwith --share it also answers paired devices on this network."
    ),
    "cli-serve-examples": "examples:\n  setline serve\n  setline serve --share\n  setline serve --load kitchen.toml",
    "cli-serve-store-help": "the store's address, such as postgresql+psycopg://user@host/name (default: a file)",
    "cli-serve-folder-help": "where the store and photos lie (default: this user's data folder)",
    "cli-serve-port-help": "port (default: 8321)",
    "cli-serve-share-help": "let paired devices on this network in",
    "cli-serve-name-help": "a name this machine goes by, such as kitchen.example; may be given again",
    "cli-serve-certificate-help": "certificate file, for HTTPS",
    "cli-serve-key-help": "the certificate's key file",
    "cli-serve-load-help": "a job file to start a job from, once; may be given again",
    "cli-serve-both": "a certificate goes with its key: give both --certificate and --key",
    "cli-serve-port-allowed": "a port is 1 to 65535",
    "cli-serve-open": "Open {address} on this machine. Ctrl+C stops it.",
    "cli-serve-open-other": "Other devices: {address}",
}
