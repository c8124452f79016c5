#include "corpora/targets.hpp"

PORTWRIGHT_FUZZ_ENTRY(cut_text)
