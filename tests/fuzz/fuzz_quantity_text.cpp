#include "corpora/targets.hpp"

PORTWRIGHT_FUZZ_ENTRY(quantity_text)
