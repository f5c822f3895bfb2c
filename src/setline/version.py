"""The package's version: part of the check code, since another version may give other numbers."""

VERSION = "0.1.0"
