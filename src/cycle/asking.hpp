#pragma once
// Internal to cycle: whoever watches a run, as a march asks.

#include "cycle/curve.hpp"

namespace portwright::cycle {

/// Once told to stop it stays so, as what a stopped turn left is no answer.
struct Asking {
  const Tell* tell;
  double share = 0.0;
  bool stopped = false;
};

/// @param asking must outlive the march
inline StopCall stop_of(Asking& asking) {
  return {[](void* self) {
            auto* a = static_cast<Asking*>(self);
            a->stopped = a->stopped || (*a->tell && (*a->tell)(a->share));
            return a->stopped;
          },
          &asking};
}

}  // namespace portwright::cycle
