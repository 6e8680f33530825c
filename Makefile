# The doors. Meson does the building; see docs/architecture.md.
#   make         build/kitbench
#   make demo    set up what the demo needs, build, and play the demo into out/
#   make test    set up what the tests need, build with both compilers, run every quick test
#   make help    all doors

NINJA = ninja
.PHONY: all help demo test test-long bench format clean setup-demo setup-test

all: build/build.ninja
	@$(NINJA) -C build kitbench
build/build.ninja:
	@meson setup build --buildtype=release >/dev/null

build-asan/build.ninja:
	@CC=clang meson setup build-asan --buildtype=debug -Doptimization=1 -Db_sanitize=address,undefined -Db_lundef=false \
	  -Dtests=true -Dfault_door=true -Dcheck_explanations=true >/dev/null

clean:
	rm -rf build build-asan build-tsan build-fuzz out
