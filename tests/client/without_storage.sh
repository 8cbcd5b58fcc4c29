#!/bin/bash
# The client works over the public API alone: it links neither libpqxx nor our storage.
# without_storage.sh CLIENT SERVER; the server shows that these signs would be found.
set -u
client=$1
server=$2

links_pqxx() { ldd "$1" | grep -q libpqxx; }
has_storage() { nm -C "$1" | grep -q ' rowproof::storage::'; }

failed=0
for sign in links_pqxx has_storage; do
  if ! "$sign" "$server"; then
    echo "$sign does not know the server, which has storage: the test would find nothing"
    failed=1
  fi
  if "$sign" "$client"; then
    echo "$sign: the client must not"
    failed=1
  fi
done
exit $failed
