#!/bin/sh
# What the tests need from the operating system: a browser and a PostgreSQL server, both as Debian packages them.
# As root it installs what is missing; anybody else is told the command.
set -eu

missing=""
command -v chromium >/dev/null 2>&1 || missing="$missing chromium"
if ! command -v initdb >/dev/null 2>&1; then
    found=no
    for program in /usr/lib/postgresql/*/bin/initdb; do
        [ -x "$program" ] && found=yes
    done
    [ "$found" = yes ] || missing="$missing postgresql"
fi
[ -n "$missing" ] || exit 0

install="apt-get install --no-install-recommends -y$missing"
if ! command -v apt-get >/dev/null 2>&1; then
    echo "The tests need:$missing. Install them as your system does." >&2
    exit 2
fi
if [ "$(id -u)" != 0 ]; then
    echo "The tests need:$missing. Run as root: $install" >&2
    echo "Without them: make test-core" >&2
    exit 2
fi
apt-get update -q
DEBIAN_FRONTEND=noninteractive $install
