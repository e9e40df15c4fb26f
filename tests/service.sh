# The executables that the tests from outside ask, and a service of one of them. Sourced by the `run` of a folder, in
# that folder; they all build by these words, so that they build once.
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
work=$PWD/.work
mkdir -p "$work"
executables=${CARGO_TARGET_DIR:-$root/target}/trial

say() { printf -- '-- %s\n' "$*"; }

build() {
  cargo build --quiet --locked --profile trial -p shop-reckoner -p shop-reckoner-command --manifest-path "$root/Cargo.toml"
}

# Starts the service with the example shop and further flags; `base` is its address.
start() {
  build
  "$executables/shop-reckoner" --listen 127.0.0.1:0 --log error --shop "$root/data/shop/tern-point-works.toml" "$@" \
    >"$work/service.out" 2>"$work/service.err" &
  service=$!
  trap 'kill "$service" 2>/dev/null || true' EXIT
  base=
  for _ in $(seq 100); do
    base=$(sed -n 's|.* answers at \(http://[^/]*\)/$|\1|p' "$work/service.out")
    [ -z "$base" ] || return 0
    kill -0 "$service" 2>/dev/null || { cat "$work/service.err" >&2; exit 1; }
    sleep 0.1
  done
  echo 'the service did not say its address within 10 s' >&2
  exit 1
}

# Fails where the service fell over or a thread of it did.
still_well() {
  kill -0 "$service" 2>/dev/null || { echo 'the service fell over' >&2; cat "$work/service.err" >&2; exit 1; }
  ! grep -q panicked "$work/service.err" || { cat "$work/service.err" >&2; exit 1; }
}
