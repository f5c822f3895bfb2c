"""Sentences of the field book."""

SENTENCES: dict[str, str] = {
    "entry-not-an-object": "An entry is an object with id, job, device, n, place and value; read {given}.",
    "entry-unknown-field": "An entry has no field {field}.",
    "entry-field": "An entry's {field} is {allowed}.",
    "entry-over": "a list of at most {most} ids",
    "entry-count": "a whole number, 0 or more",
    "entry-yes-or-no": "true or false",
    "entry-text": "a text of at most {longest} characters",
    "entry-value-needed": "a value, unless the entry takes one back",
    "entry-value-taken-back": "left out where the entry takes one back",
    "entry-value-json": "a value that JSON has: text, whole or decimal number, true or false, list or table",
    "entry-value-long": "at most {longest} characters of whole signs, written as JSON",
    "entry-id-twice": "Two entries of one id with different contents were sent together. None was kept.",
    "entry-id-taken": "Entry {id} is in the book already with another content. None was kept.",
    "place-not-a-pointer": "A place starts with a slash, such as /order/boxes/3/width; read {place}.",
    "no-such-job": "There is no job {job} in this store.",
    "job-deleted": "Job {job} was deleted from this store.",
    "store-full": (
        "The disk has no room. Nothing was kept; what you typed is still here. "
        "Free some room and send it again."
    ),
    "store-busy": "Others held the store too long. Nothing was kept; send it again.",
    "store-unusable": "The store cannot be opened: {reason}.",
    # places in words
    "where-floor": "wall {wall}, {u} from the left corner, {line}, down from {set_up}",
    "where-line-wall": "at the wall",
    "where-line-toe": "toe line",
    "where-out": "{out} out",
    "where-on-bare": "on the bare floor",
    "where-on-covering": "on the covering",
    "where-length": "wall {wall}, length {height}",
    "where-face": "at the line of the faces",
    "where-plumb": "wall {wall}, {end} end, plumb line {line}, {height}",
    "where-ceiling": "ceiling at wall {wall}, {u} from the left corner, up from {set_up}",
    "where-height": "{length} {way} from {zero}",
    "where-at-line": "at the struck line",
    "where-take": "take {take}",
    "where-order": "order of {listed}",
    "where-thing-walls": "wall {name}",
    "where-thing-windows": "window {name}",
    "where-thing-doors": "door {name}",
    "where-thing-set_ups": "set-up {name}",
    "where-thing-marks": "mark {name}",
    "where-thing-coverings": "covering {name}",
    "where-thing-boxes": "box {name}",
    "where-thing-fillers": "filler {name}",
    "where-thing-panels": "panel {name}",
    "where-thing-appliances": "opening {name}",
    "where-thing-existing": "existing {name}",
    "where-thing-runs": "run {name}",
    "where-thing-struck_lines": "struck line {name}",
    "where-thing-agreed": "agreed mark {name}",
    "where-thing-struck": "struck mark {name}",
    "where-thing-set": "box {name} as set",
    "where-thing-decisions": "decision on {name}",
    "where-field-casing_out": "casing out from the wall",
    "where-field-below_line_left": "down from the struck line, front left",
    "where-field-below_line_right": "down from the struck line, front right",
    "where-field-off_wall": "off the wall",
    "where-field-at": "place along the wall",
    "where-field-use": "set-up in use",
    "where-field-set_up": "set-up",
    "where-field-set_ups": "set-ups",
    "where-field-may_trim": "how much may be cut off its foot",
    "where-field-rear_void": "space behind its back",
    "where-field-height_to": "what its height is measured to",
    "where-field-sheet_date": "date of the sheet",
    "where-field-left": "left edge",
    "where-field-right": "right edge",
    # two people's values
    "two-values-one": "{value} ({by})",
    "two-values-and": " and ",
    "two-values-middle": (
        "There are two values for {where}: {said}. The middle, {used}, is used until one of them is read again."
    ),
    "two-values-first": (
        "There are two values for {where}: {said}. {used} is used until somebody says which one holds."
    ),
    "no-such-photo": "There is no such photo in this job.",
    "photo-too-large": "A photo may have {most} MB at most. Nothing was kept.",
    "photo-too-many-pixels": "A photo may have {most} million pixels at most. Nothing was kept.",
    "photo-too-many": "A job may have {most} photos at most. Nothing was kept.",
    "photo-not-read": "This is no photo that can be read: a whole JPEG, PNG or WebP file. Nothing was kept.",
    "photo-not-kept": "The photo could not be written ({why}). Nothing was kept; send it again once there is room.",
    "backup-not-written": "The backup {file} could not be written ({why}). No half of it was left.",
    "backup-not-opened": "{file} cannot be opened ({why}).",
    "backup-none": "This file is no backup of Setline, or it is damaged. Nothing was changed.",
    "backup-damaged": "The backup is damaged at {member}. Nothing was changed; take another copy of the file.",
    "backup-newer": "The backup was made by a newer Setline ({version}). Use that one. Nothing was changed.",
    "restore-not-empty": (
        "The store holds something already. Nothing was changed. Restore into an empty store, or say that "
        "what it holds may go."
    ),
    "export-not-empty": "the folder holds something already; name another",
    "export-not-written": "The jobs could not be written to {folder} ({why}).",
    # the commands
    "cli-store-help": "the store's address; without it, the one in the folder",
    "cli-store-folder-help": "the folder of the store and its photos; without it, the user's data folder",
    "cli-store-none": "there is no store there; setline serve makes one",
    "cli-store-json-help": "say as JSON what was done",
    "cli-backup-help": "write all jobs, entries and photos into one file",
    "cli-backup-description": (
        "Write all of the store into one file: every job with its history, photos, prints and paired phones.\n"
        "The app may go on meanwhile; the file holds the store as it stood at one moment."
    ),
    "cli-backup-examples": (
        "examples:\n"
        "  setline backup                              setline-<date>.backup here\n"
        "  setline backup --out stick/site.backup\n"
        "  setline backup --store postgresql://ines@db/setline --out site.backup"
    ),
    "cli-backup-out-help": "the file to write; without it, setline-<date>.backup in this folder",
    "cli-backup-over-help": "write over a file that is there already",
    "cli-backup-there": "this file is there already and is left alone; name another, or say --over",
    "cli-backup-wrote": "Wrote {file}: {jobs} jobs, {entries} entries, {photos} photos.",
    "cli-restore-help": "make a store again from a backup",
    "cli-restore-description": (
        "Lay a backup into an empty store, on either kind of database. Stop the app first.\n"
        "A store that holds something is left alone unless --replace says that all of it may go; it is backed\n"
        "up beside its folder before."
    ),
    "cli-restore-examples": (
        "examples:\n"
        "  setline restore site.backup\n"
        "  setline restore site.backup --folder new-place\n"
        "  setline restore site.backup --store postgresql://ines@db/setline"
    ),
    "cli-restore-file-help": "the backup",
    "cli-restore-replace-help": "what the store holds may go; a backup of it is written first",
    "cli-restore-before": "What the store held is in {file}.",
    "cli-restore-done": "Restored {jobs} jobs, {entries} entries, {photos} photos.",
    "cli-export-help": "write every job as a job file with its history and photos",
    "cli-export-description": (
        "Write every job of the store into a folder: NAME.toml, the job file; NAME.entries.jsonl, every entry\n"
        "that was ever made; NAME-photos, the photos. A job that is not whole yet has no job file."
    ),
    "cli-export-examples": "examples:\n  setline export jobs",
    "cli-export-folder-help": "an empty folder, or one that is not there yet",
    "cli-export-done": "Wrote {count} jobs into {folder}.",
    "cli-export-part": "Not whole yet, so without a job file: {job}.",
    "store-url": ("A store is sqlite:///FILE or postgresql://NAME@HOST/DATABASE. What was given is neither."),
    "store-no-driver": (
        "The driver {driver} is not installed. It comes with: pip install 'setline[postgresql]'"
    ),
    "store-holds-else": "This database holds something else already (a table {table}). Give the store its own.",
    "store-no-copy": (
        "The store has to be brought up to date, and there is no room for a copy before that in {folder} "
        "({why}). Nothing was changed."
    ),
    "store-newer": (
        "The store was made by a newer Setline (step {stands_at}; this one knows {head}). Use that one."
    ),
}
