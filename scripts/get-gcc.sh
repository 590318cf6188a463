#!/bin/sh
# Puts in place the C compiler that the tests of the laws in C look for. On Debian as root it installs gcc with the headers of
# the C library. Elsewhere it says what is missing, and fails.
set -eu

# A compiler without the library's headers compiles nothing that prints.
compiles() {
  echo '#include <stdio.h>
int main(void) { return puts("") < 0; }' | "${CC:-cc}" -std=c99 -x c -o /dev/null - >/dev/null 2>&1
}

if ! compiles && command -v apt-get >/dev/null 2>&1 && [ "$(id -u)" = 0 ]; then
  apt-get update || true
  DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends gcc libc6-dev
fi

if compiles; then
  echo "C compiler: $(command -v "${CC:-cc}")"
  exit 0
fi
echo 'No C compiler found. On Debian or Ubuntu, as root: apt-get install -y gcc libc6-dev' >&2
echo 'Elsewhere: install one that takes -std=c99 and set the environment variable CC to its path.' >&2
exit 1
