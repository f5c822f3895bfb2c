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
    "store-newer": (
        "The store was made by a newer Setline (step {stands_at}; this one knows {head}). Use that one."
    ),
}
