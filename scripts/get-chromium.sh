#!/bin/sh
# Puts a Chromium where the browser tests look for it. On Debian as root it installs one; elsewhere it says
# what to install and fails.
set -eu

for path in "${CHROMIUM:-}" /usr/bin/chromium /usr/bin/chromium-browser /usr/bin/google-chrome; do
  if [ -n "$path" ] && [ -x "$path" ]; then
    echo "Chromium: $path"
    exit 0
  fi
done

if command -v apt-get >/dev/null 2>&1 && [ "$(id -u)" = 0 ]; then
  apt-get update
  DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends chromium
  exit 0
fi

echo 'No Chromium found. On Debian or Ubuntu, as root: apt-get install -y chromium' >&2
echo 'Elsewhere: install Chromium and set the environment variable CHROMIUM to its path.' >&2
exit 1
