#include "corpora/targets.hpp"

PORTWRIGHT_FUZZ_ENTRY(wish_text)
