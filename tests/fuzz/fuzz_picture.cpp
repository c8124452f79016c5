#include "corpora/targets.hpp"

PORTWRIGHT_FUZZ_ENTRY(picture)
