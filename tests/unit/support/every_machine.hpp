#pragma once
// Code in vectors, tried with every kind of vector that this machine has.

#include <gtest/gtest.h>
#include <hwy/targets.h>

namespace portwright::bench {

/// Does it with every kind of vector that this machine has, the plainest too.
template <class Work>
void on_every_machine(Work&& work) {
  const auto here = hwy::SupportedTargets();
  for (auto left = here; left != 0; left &= left - 1) {
    const auto one = left & (~left + 1);
    hwy::SetSupportedTargetsForTest(one);
    hwy::GetChosenTarget().Update(one);
    SCOPED_TRACE(hwy::TargetName(one));
    work();
  }
  hwy::SetSupportedTargetsForTest(0);
  hwy::GetChosenTarget().Update(hwy::SupportedTargets());
}

}  // namespace portwright::bench
