#include "unit/support/count_allocations.hpp"
