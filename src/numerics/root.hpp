#pragma once
// The root of a function between two points where its signs differ.

#include <memory>
#include <type_traits>

#include "base/error.hpp"

namespace portwright::numerics {

/// A borrowed function of one number; it must outlive the call it is handed to. No allocation.
class FunctionView {
 public:
  template <class F>
  requires(!std::is_same_v<std::remove_cvref_t<F>, FunctionView>)
      FunctionView(F&& function)  // NOLINT(google-explicit-constructor): made to be passed a lambda
      : object_(std::addressof(function)), call_([](const void* object, double x) -> double {
          return (*static_cast<const std::remove_reference_t<F>*>(object))(x);
        }) {}
  double operator()(double x) const { return call_(object_, x); }

 private:
  const void* object_;
  double (*call_)(const void*, double);
};

/// x in [low, high] with function(x) = 0, to `tolerance` in x. Algorithm 748 of Alefeld, Potra and Shi, from
/// Boost.Math. A root at either end is returned as it is. Fails (fault) when the signs at the ends agree or a value is
/// not finite.
[[nodiscard]] base::Result<double> find_root(FunctionView function, double low, double high, double tolerance);

}  // namespace portwright::numerics
