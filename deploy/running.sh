# shellcheck shell=bash
# The server's process: found, started and stopped. Sourced by bash after steps.sh. VAR is always the
# absolute path of the server's folder.

# server_process VAR: the number of the rowproofd that serves VAR; fails if none does. The file may
# outlive its process, and the number may be another program's by now.
server_process() {
  local pid arguments i
  pid=$(cat "$1/rowproofd.pid" 2>/dev/null) || return 1
  [[ $pid =~ ^[0-9]+$ ]] || return 1
  mapfile -d '' -t arguments 2>/dev/null <"/proc/$pid/cmdline" || return 1
  [[ ${arguments[0]:-} == */rowproofd && ${arguments[1]:-} == serve ]] || return 1
  for ((i = 2; i + 1 < ${#arguments[@]}; i++)); do
    if [ "${arguments[i]}" = --var ] && [ "${arguments[i + 1]}" = "$1" ]; then
      echo "$pid"
      return 0
    fi
  done
  return 1
}

# database_process VAR: the number of the private PostgreSQL of VAR; fails if it does not run.
database_process() {
  local pid arguments data=$1/postgres/data
  pid=$(head -n 1 "$data/postmaster.pid" 2>/dev/null) || return 1
  [[ $pid =~ ^[0-9]+$ ]] || return 1
  mapfile -d '' -t arguments 2>/dev/null <"/proc/$pid/cmdline" || return 1
  [[ ${arguments[0]:-} == */postgres && " ${arguments[*]} " == *" -D $data "* ]] || return 1
  echo "$pid"
}

# start_server VAR OPTION...: returns when it listens; $VAR/address then says where.
start_server() {
  local var=$1
  shift
  rm -f "$var/address"
  # A session of its own: neither an interrupt nor the end of the terminal is meant for the server.
  setsid build/release/rowproofd serve --var "$var" "$@" </dev/null >>"$var/rowproofd.log" 2>&1 &
  echo $! >"$var/rowproofd.pid"
  with_progress "Starting the server" await_address "$var" $! ||
    { rm -f "$var/rowproofd.pid"; refuse "the server did not start; $var/rowproofd.log says why."; }
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

# await_end PROCESS: until it has ended; fails after 90 seconds.
await_end() {
  local waited
  for ((waited = 0; waited < 900; waited++)); do
    kill -0 "$1" 2>/dev/null || return 0
    sleep 0.1
  done
  return 1
}

# stop_server VAR: says what was stopped; fails if nothing ran.
stop_server() {
  local var=$1 pid address
  if pid=$(server_process "$var"); then
    address=$(cat "$var/address" 2>/dev/null || echo "an unknown address")
    kill "$pid" || refuse "process $pid is another user's: run this as that user."
    with_progress "Stopping rowproofd" await_end "$pid" ||
      refuse "the server did not stop within 90 seconds (process $pid); see $var/rowproofd.log."
    echo "Stopped: rowproofd on $address (process $pid) and its PostgreSQL, of $var."
  elif pid=$(database_process "$var"); then
    # Its server was killed. SIGINT is PostgreSQL's fast shutdown: open transactions are rolled back.
    kill -INT "$pid" || refuse "process $pid is another user's: run this as that user."
    with_progress "Stopping PostgreSQL" await_end "$pid" ||
      refuse "PostgreSQL did not stop within 90 seconds (process $pid); see $var/postgres/postgres.log."
    echo "Stopped: PostgreSQL (process $pid) of $var, left over by a server that was killed."
  else
    rm -f "$var/rowproofd.pid"
    return 1
  fi
  rm -f "$var/rowproofd.pid"
}
