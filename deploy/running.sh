# shellcheck shell=bash
# The server's process: found, started and stopped. Sourced by bash after steps.sh. VAR is always the
# absolute path of the server's folder.
#
# Whoever serves a folder has a lock on it and on VAR/lock as long as it lives; the file says who that is:
# number, time of start, word. A file without a lock says nothing, since numbers of processes are used again.

# is_held VAR: whether somebody has the lock.
is_held() {
  [ -d "$1" ] || return 1
  local name status
  for name in "$1" "$1/lock"; do
    [ -e "$name" ] || continue
    [ -r "$name" ] || refuse "$name is another user's: run this as that user."
    status=0
    flock --shared --nonblock --conflict-exit-code 9 "$name" true || status=$?
    [ "$status" != 9 ] || return 0
  done
  return 1
}

# start_of PROCESS: when it was started, in ticks from the machine's start (field 22 of proc(5)).
start_of() {
  local stat fields
  stat=$(cat "/proc/$1/stat" 2>/dev/null) || return 1
  read -ra fields <<<"${stat##*) }"
  echo "${fields[19]}"
}

# server_process VAR: the number of the rowproofd that serves VAR; fails with 3 if none does, and with 1 and a
# sentence if it cannot be known.
server_process() {
  local waited pid started word
  for ((waited = 0; waited < 600; waited++)); do
    is_held "$1" || return 3
    read -r pid started word < <(cat "$1/lock" 2>/dev/null) || :
    if [ "${word:-}" = serve ] && [ "$(start_of "$pid")" = "$started" ]; then
      echo "$pid"
      return 0
    fi
    # It has not yet said who it is, or it is an operator's command, which soon ends.
    [ "${word:-}" != serve ] || [ "$waited" -lt 20 ] || break
    sleep 0.1
  done
  refuse "$1 is in use by a process that cannot be seen from here; stop it where it runs."
}

# is_database PROCESS VAR: whether it is a PostgreSQL that runs on VAR's data.
is_database() {
  [ "$(cat "/proc/$1/comm" 2>/dev/null)" = postgres ] &&
    [ "/proc/$1/cwd" -ef "$2/postgres/data" ]  # a zombie has none
}

# database_process VAR: the number of the private PostgreSQL of VAR; fails if it does not run.
database_process() {
  local pid
  pid=$(head -n 1 "$1/postgres/data/postmaster.pid" 2>/dev/null) || return 1
  [[ $pid =~ ^[0-9]+$ ]] && is_database "$pid" "$1" || return 1
  echo "$pid"
}

# start_server VAR OPTION...: returns when it listens; $VAR/address then says where.
start_server() {
  local var=$1
  shift
  rm -f "$var/address"
  # A session of its own: neither an interrupt nor the end of the terminal is meant for the server.
  setsid build/release/rowproofd serve --var "$var" "$@" </dev/null >>"$var/rowproofd.log" 2>&1 &
  with_progress "Starting the server" await_address "$var" $! ||
    refuse "the server did not start; $var/rowproofd.log says why."
}

# await_address VAR PROCESS: until the server listens; prints the end of its log if it does not.
await_address() {
  local waited
  for ((waited = 0; waited < 900; waited++)); do
    [ ! -s "$1/address" ] || return 0
    kill -0 "$2" 2>/dev/null || break
    sleep 0.1
  done
  tail -n 3 "$1/rowproofd.log"
  return 1
}

# await_end COMMAND...: until the command fails; itself fails after 90 seconds.
await_end() {
  local waited
  for ((waited = 0; waited < 900; waited++)); do
    "$@" >/dev/null || return 0
    sleep 0.1
  done
  return 1
}

# stop_server VAR: says what was stopped; fails if nothing ran.
stop_server() {
  local var=$1 pid address status=0
  pid=$(server_process "$var") || status=$?
  [ "$status" != 1 ] || exit 1
  if [ "$status" = 0 ]; then
    address=$(cat "$var/address" 2>/dev/null || echo "an unknown address")
    kill "$pid" || refuse "process $pid is another user's: run this as that user."
    with_progress "Stopping rowproofd" await_end is_held "$var" ||
      refuse "the server did not stop within 90 seconds (process $pid); see $var/rowproofd.log."
    echo "Stopped: rowproofd on $address (process $pid) and its PostgreSQL, of $var."
  elif pid=$(database_process "$var"); then
    # Its server was killed. SIGINT is PostgreSQL's fast shutdown: open transactions are rolled back.
    kill -INT "$pid" || refuse "process $pid is another user's: run this as that user."
    with_progress "Stopping PostgreSQL" await_end is_database "$pid" "$var" ||
      refuse "PostgreSQL did not stop within 90 seconds (process $pid); see $var/postgres/postgres.log."
    echo "Stopped: PostgreSQL (process $pid) of $var, left over by a server that was killed."
  else
    return 1
  fi
}
