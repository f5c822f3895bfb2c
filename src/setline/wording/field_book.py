"""Sentences of the field book."""

SENTENCES: dict[str, str] = {
    "entry-not-an-object": "An entry is an object with id, job, device, n, place and value; read {given}.",
    "entry-unknown-field": "An entry has no field {field}.",
    "entry-field": "An entry's {field} is {allowed}.",
    "place-not-a-pointer": "A place starts with a slash, such as /order/boxes/3/width; read {place}.",
}
