# The doors. Meson and ninja do the building; docs/architecture.md says what is where.

.PHONY: all help demo test test-long bench format tidy clean install package bench-sched

all: build/build.ninja ## build/kitbench, as users get it
	@ninja -C build kitbench

demo: ## set up what it needs, build, and play the demo into out/
	@scripts/setup demo
	@$(MAKE) --no-print-directory all
	@scripts/demo

test: ## set up what it needs, build with gcc and clang, run every test but the long ones
	@scripts/setup test
	@scripts/test quick

test-long: ## whole data sets, timed fuzzing, soaks
	@scripts/setup bench
	@scripts/test long

bench: ## measure; the figures are for a report, not for judging
	@scripts/setup bench
	@$(MAKE) --no-print-directory all
	@bench/run

bench-sched: ## measure the scheduling kernel, beside another solver where there is one
	@$(MAKE) --no-print-directory all
	@mkdir -p out
	@bench/sched.py --every 4 --seconds 1 --other --csv out/bench-sched.csv

format: ## lay out every C file as .clang-format says
	@clang-format -i $$(git ls-files -co --exclude-standard '*.c' '*.h')

install: all ## put it under PREFIX (/usr/local), below DESTDIR if that is set
	@meson configure build --prefix="$(or $(PREFIX),/usr/local)" -Dtests=false >/dev/null
	@meson install -C build --quiet

package: ## a Debian package for this machine, into out/
	@scripts/setup package
	@scripts/package

clean: ## remove everything that was built
	rm -rf build build-* out

help: ## this list
	@sed -n 's/^\([a-z-]*\):.*## \(.*\)/  make \1\t\2/p' Makefile | expand -t 20

build/build.ninja:
	@scripts/setup demo
	@meson setup build --buildtype=release > /dev/null
