#!/bin/sh
# Puts in place what the browser tests look for: a Chromium, and pdftotext, which reads what a page prints. On Debian as
# root it installs them. Elsewhere it says what is missing; without a Chromium it fails.
set -eu

chromium=''
for path in "${CHROMIUM:-}" /usr/bin/chromium /usr/bin/chromium-browser /usr/bin/google-chrome; do
  if [ -n "$path" ] && [ -x "$path" ]; then
    chromium=$path
    break
  fi
done

missing=''
[ -n "$chromium" ] || missing='chromium'
command -v pdftotext >/dev/null 2>&1 || missing="$missing poppler-utils"

if [ -n "$missing" ] && command -v apt-get >/dev/null 2>&1 && [ "$(id -u)" = 0 ]; then
  # A reader of PDF that cannot be had stops nothing; the tests say what they skip.
  apt-get update || true
  # shellcheck disable=SC2086 # two names, two words
  DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends $missing || [ -n "$chromium" ]
fi

command -v pdftotext >/dev/null 2>&1 ||
  echo 'No pdftotext found (Debian: poppler-utils): tests of what is printed skip reading it.'

if [ -n "$chromium" ] || [ -x /usr/bin/chromium ]; then
  echo "Chromium: ${chromium:-/usr/bin/chromium}"
  exit 0
fi
echo 'No Chromium found. On Debian or Ubuntu, as root: apt-get install -y chromium' >&2
echo 'Elsewhere: install Chromium and set the environment variable CHROMIUM to its path.' >&2
exit 1
