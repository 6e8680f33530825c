#!/bin/sh
# A room uses only rooms below it, and of another room only its public header (base has one for each module).
set -u
cd "$(dirname "$0")/.." || exit 3
rooms="base trade sched kit stock plan store desk picture paper web cli"
status=0
rank() {
    i=0
    for r in $rooms; do
        [ "$r" = "$1" ] && { echo $i; return; }
        i=$((i + 1))
    done
    echo 99
}
for file in $(git ls-files -co --exclude-standard 'src/*.c' 'src/*.h'); do
    room=$(echo "$file" | cut -d/ -f2)
    own=$(rank "$room")
    for include in $(sed -n 's/^#include "\([^"]*\)".*/\1/p' "$file"); do
        other=${include%%/*}
        header=${include##*/}
        there=$(rank "$other")
        if [ "$there" = 99 ]; then
            echo "$file: includes \"$include\"; write it as \"room/file.h\""
            status=1
        elif [ "$there" -gt "$own" ]; then
            echo "$file: the room $room must not use the room $other, which lies above it"
            status=1
        elif [ "$other" != "$room" ] && [ "$other" != base ] && [ "$header" != "$other.h" ] &&
            ! grep -q "#include \"$include\"" "src/$other/$other.h"; then
            echo "$file: \"$include\" is private to the room $other; use $other/$other.h"
            status=1
        fi
    done
done
# Rooms with their own outside world: SQL only in store, HTTP only in web, argv only in cli.
if grep -rlE '#include <sqlite3.h>' src | grep -v '^src/store/'; then
    echo "sqlite3.h belongs to src/store only"
    status=1
fi
if grep -rlE '#include <microhttpd.h>' src | grep -v '^src/web/'; then
    echo "microhttpd.h belongs to src/web only"
    status=1
fi
exit $status
