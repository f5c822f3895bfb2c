"""The app: server-rendered pages over the field book, plain forms first, small scripts on top."""
