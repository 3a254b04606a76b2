#!/usr/bin/env bash
# A PostgreSQL server for tests, thrown away afterwards; nothing of an installed server is touched.
#
#   scripts/postgres-for-tests.sh start          prints its folder, then its URL, a line each
#   scripts/postgres-for-tests.sh stop FOLDER    stops it and removes the folder
#   scripts/postgres-for-tests.sh run COMMAND    runs a command with TEST_DATABASE_URL set
#
# Where PostgreSQL is missing it is installed from Debian, if this is Debian and the user is root.
set -euo pipefail

say() { printf '%s\n' "$*" >&2; }

programs() {
  local folder
  for folder in $(ls -d /usr/lib/postgresql/*/bin 2>/dev/null | sort --version-sort --reverse); do
    [[ -x $folder/initdb ]] && { echo "$folder"; return; }
  done
  if command -v initdb >/dev/null; then dirname "$(command -v initdb)"; fi
}

install_missing() {
  [[ -n $(programs) ]] && return
  if [[ $(id -u) -ne 0 ]] || ! command -v apt-get >/dev/null; then
    say 'PostgreSQL is not here. Install the package "postgresql", then run this again.'
    exit 2
  fi
  say 'PostgreSQL is not here: installing the package "postgresql" ...'
  # Debian would start a cluster of its own, which nobody here needs.
  mkdir -p /etc/postgresql-common
  [[ -e /etc/postgresql-common/createcluster.conf ]] ||
    echo 'create_main_cluster = false' >/etc/postgresql-common/createcluster.conf
  export DEBIAN_FRONTEND=noninteractive
  { apt-get update -q && apt-get install -q -y --no-install-recommends postgresql; } >&2
}

# PostgreSQL refuses to run as root: then the user "postgres", which Debian's package makes, runs it.
as_server() {
  if [[ $(id -u) -eq 0 ]]; then runuser -u postgres -- "$@"; else "$@"; fi
}

# The port is free when asked; should something take it before the server does, another is tried.
free_port() {
  node -e 'const s = require("net").createServer().listen(0, "127.0.0.1", () => {
    console.log(s.address().port); s.close(); });'
}

start() {
  install_missing
  local bin folder port
  bin=$(programs)
  folder=$(mktemp --directory "${TMPDIR:-/tmp}/postgres-for-tests.XXXXXX")
  [[ $(id -u) -eq 0 ]] && chown postgres "$folder"
  cd "$folder"
  as_server "$bin/initdb" --pgdata="$folder/data" --username=tests --auth=trust \
    --encoding=UTF8 --locale=C.UTF-8 --no-sync >"$folder/initdb.log"
  for _ in 1 2 3; do
    port=$(free_port)
    if as_server "$bin/pg_ctl" --pgdata="$folder/data" --log="$folder/data/server.log" --wait \
      --options="-c listen_addresses=127.0.0.1 -c port=$port -c unix_socket_directories='$folder/data'" \
      start >"$folder/start.log" 2>&1; then
      echo "$folder"
      echo "postgresql://tests@127.0.0.1:$port/postgres"
      return
    fi
  done
  say 'PostgreSQL did not start:'
  cat "$folder/start.log" "$folder/data/server.log" >&2 || true
  rm -rf "$folder"
  exit 1
}

stop() {
  local folder=$1
  [[ $(basename "$folder") == postgres-for-tests.* && -d $folder ]] ||
    { say "$folder is not a folder of this script."; exit 2; }
  cd "$folder"
  as_server "$(programs)/pg_ctl" --pgdata="$folder/data" --mode=immediate --wait stop >/dev/null || true
  cd /
  rm -rf "$folder"
}

run() {
  local here folder url started
  here=$(pwd)
  started=$(start)
  { read -r folder; read -r url; } <<<"$started"
  # shellcheck disable=SC2064  # the folder as it is now: at the exit the name is gone
  trap "stop '$folder'" EXIT
  cd "$here"
  TEST_DATABASE_URL=$url "$@"
}

case ${1:-} in
  start) start ;;
  stop) stop "${2:?Which folder? It is the first line that start printed.}" ;;
  run) shift; run "$@" ;;
  *) sed -n '2,8p' "${BASH_SOURCE[0]}" >&2; exit 2 ;;
esac
