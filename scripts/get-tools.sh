#!/bin/sh
# Puts in place what tests look for beside Node: a Chromium, a C compiler, a queue (Debian: task-spooler, command tsp) and
# pdftotext, which reads what a page prints. On Debian as root it installs what is missing, in one go. Elsewhere it says what is;
# without a Chromium or a compiler it fails.
set -u

chromium() {
  for path in "${CHROMIUM:-}" /usr/bin/chromium /usr/bin/chromium-browser /usr/bin/google-chrome; do
    [ -n "$path" ] && [ -x "$path" ] && echo "$path" && return
  done
  return 1
}

# A compiler without the library's headers compiles nothing that prints.
compiles() {
  echo '#include <stdio.h>
int main(void) { return puts("") < 0; }' | "${CC:-cc}" -std=c99 -x c -o /dev/null - >/dev/null 2>&1
}

has() { command -v "$1" >/dev/null 2>&1; }

missing=''
chromium >/dev/null || missing="$missing chromium"
compiles || missing="$missing gcc libc6-dev"
has tsp || missing="$missing task-spooler"
has pdftotext || missing="$missing poppler-utils"

if [ -n "$missing" ] && has apt-get && [ "$(id -u)" = 0 ]; then
  apt-get update
  install() { DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends "$@"; }
  # One that cannot be had must not keep the others out.
  # shellcheck disable=SC2086 # each name a word
  install $missing || for name in $missing; do install "$name"; done
fi

has pdftotext || echo 'No pdftotext found (Debian: poppler-utils): tests of what is printed skip reading it.'
has tsp || echo 'No tsp found (Debian: task-spooler): tests of studies on a queue are skipped.'
ready=0
if compiles; then
  echo "C compiler: $(command -v "${CC:-cc}")"
else
  echo 'No C compiler found. On Debian or Ubuntu, as root: apt-get install -y gcc libc6-dev' >&2
  echo 'Elsewhere: install one that takes -std=c99 and set the environment variable CC to its path.' >&2
  ready=1
fi
if chromium >/dev/null; then
  echo "Chromium: $(chromium)"
else
  echo 'No Chromium found. On Debian or Ubuntu, as root: apt-get install -y chromium' >&2
  echo 'Elsewhere: install Chromium and set the environment variable CHROMIUM to its path.' >&2
  ready=1
fi
exit "$ready"
