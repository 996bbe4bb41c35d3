#!/usr/bin/env bash
# Print the seconds from script/start to the first page: in a clean clone (package cache filled), and started again.
set -eu
here=$(cd "$(dirname "$0")/.." && pwd)
clone=$(mktemp -d -t studio-bench.XXXXXX)
trap 'kill %1 2>/dev/null || true; wait 2>/dev/null || true; rm -rf "$clone"' EXIT
git clone --quiet "$here" "$clone/project"
cd "$clone/project"
port=8765
measure() {
  local begin end
  begin=$(date +%s.%N)
  script/start --port $port >"$clone/log" 2>&1 &
  until curl --silent --fail --output /dev/null "http://127.0.0.1:$port/sign-in/login/"; do
    kill -0 %% 2>/dev/null || { cat "$clone/log" >&2; exit 1; }
    sleep 0.05
  done
  end=$(date +%s.%N)
  printf '%s: %.1f s\n' "$1" "$(echo "$end - $begin" | bc)"
  sleep 5 # the page comes from the web process: worker and scheduler must have stayed alive beside it
  kill -0 %% 2>/dev/null || { cat "$clone/log" >&2; exit 1; }
  kill -TERM %% 2>/dev/null || true
  wait %% 2>/dev/null || true
}
measure "first start (virtual environment, packages, migrations, demo)"
measure "second start"
