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
    "store-url": (
        "A store is sqlite:///FILE or postgresql://NAME@HOST/DATABASE. What was given is neither."
    ),
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
