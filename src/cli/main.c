/* main.c: the way into the program. */
#include <stdio.h>
#include <string.h>

int main(int argc, char **argv) {
    if (argc == 2 && strcmp(argv[1], "--version") == 0) {
        puts("kitbench 0.1.0");
        return 0;
    }
    fputs("kitbench: no command given; see kitbench --help\n", stderr);
    return 2;
}
