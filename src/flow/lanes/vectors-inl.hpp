// The words in which the lanes' physics is written. Included once for each kind of machine.
#if defined(PORTWRIGHT_FLOW_LANES_VECTORS) == defined(HWY_TARGET_TOGGLE)
#ifdef PORTWRIGHT_FLOW_LANES_VECTORS
#undef PORTWRIGHT_FLOW_LANES_VECTORS
#else
#define PORTWRIGHT_FLOW_LANES_VECTORS
#endif

#include <hwy/highway.h>

#include <hwy/contrib/math/math-inl.h>

// Long texts are drawn in where they are used; under the sanitizers, which make them longer still, they are called.
#undef PORTWRIGHT_LANES_LONG
#if HWY_IS_ASAN
#define PORTWRIGHT_LANES_LONG HWY_NOINLINE
#else
#define PORTWRIGHT_LANES_LONG HWY_INLINE
#endif

HWY_BEFORE_NAMESPACE();
namespace portwright::flow::HWY_NAMESPACE {

namespace hn = hwy::HWY_NAMESPACE;

template <class D>
using Vector = hn::Vec<D>;
template <class D>
using Mask = hn::Mask<D>;
template <class D>
using Number = hn::TFromD<D>;

/// The same number in every lane.
template <class D>
HWY_INLINE Vector<D> all(D d, double number) {
  return hn::Set(d, static_cast<Number<D>>(number));
}
/// A column of a table's row, and back.
template <class D>
HWY_INLINE Vector<D> take(D d, const Number<D>* row, int column) {
  return hn::Load(d, row + column * static_cast<int>(hn::Lanes(d)));
}
template <class D>
HWY_INLINE void put(D d, Vector<D> v, Number<D>* row, int column) {
  hn::Store(v, d, row + column * static_cast<int>(hn::Lanes(d)));
}
template <class M, class V>
HWY_INLINE V choose(M where, V yes, V no) {
  return hn::IfThenElse(where, yes, no);
}

// Division and root keep one unit of the machine busy for as long as a dozen products. Where the machine gives the
// first 14 bits of 1/x and 1/sqrt(x), a few terms of the series about them give the rest, but for the last bit. x > 0,
// and far from the ends of the numbers' range.

#if HWY_TARGET <= HWY_AVX3
HWY_INLINE hn::Vec512<double> about_inverse(hn::Vec512<double> x) { return hn::Vec512<double>{_mm512_rcp14_pd(x.raw)}; }
HWY_INLINE hn::Vec512<float> about_inverse(hn::Vec512<float> x) { return hn::Vec512<float>{_mm512_rcp14_ps(x.raw)}; }
HWY_INLINE hn::Vec512<double> about_inverse_root(hn::Vec512<double> x) {
  return hn::Vec512<double>{_mm512_rsqrt14_pd(x.raw)};
}
HWY_INLINE hn::Vec512<float> about_inverse_root(hn::Vec512<float> x) {
  return hn::Vec512<float>{_mm512_rsqrt14_ps(x.raw)};
}
template <class D>
constexpr bool is_double = sizeof(Number<D>) == 8;

/// 1 / x: y about it, e = 1 - x y, and y (1 + e + e² + e³).
template <class D>
HWY_INLINE Vector<D> inverse(D d, Vector<D> x) {
  const Vector<D> y = about_inverse(x), e = hn::NegMulAdd(x, y, all(d, 1.0));
  if constexpr (is_double<D>) return hn::MulAdd(y, hn::MulAdd(hn::MulAdd(e, e, e), e, e), y);
  return hn::MulAdd(y, e, y);
}
/// What (1 - e)^(-1/2) has beyond 1, over e: 1/2 + 3/8 e + 5/16 e².
template <class D>
HWY_INLINE Vector<D> root_series(D d, Vector<D> e) {
  if constexpr (is_double<D>) return hn::MulAdd(hn::MulAdd(all(d, 0.3125), e, all(d, 0.375)), e, all(d, 0.5));
  return all(d, 0.5);
}
/// 1 / sqrt(x).
template <class D>
HWY_INLINE Vector<D> inverse_root(D d, Vector<D> x) {
  const Vector<D> y = about_inverse_root(x), e = hn::NegMulAdd(x * y, y, all(d, 1.0));
  return hn::MulAdd(y * e, root_series(d, e), y);
}
/// sqrt(x).
template <class D>
HWY_INLINE Vector<D> root(D d, Vector<D> x) {
  const Vector<D> y = about_inverse_root(x), s = x * y, e = hn::NegMulAdd(s, y, all(d, 1.0));
  return hn::MulAdd(s * e, root_series(d, e), s);
}
#else
template <class D>
HWY_INLINE Vector<D> inverse(D d, Vector<D> x) {
  return all(d, 1.0) / x;
}
template <class D>
HWY_INLINE Vector<D> inverse_root(D d, Vector<D> x) {
  return all(d, 1.0) / hn::Sqrt(x);
}
template <class D>
HWY_INLINE Vector<D> root(D, Vector<D> x) {
  return hn::Sqrt(x);
}
#endif

/// ln x, x > 0.
template <class D>
PORTWRIGHT_LANES_LONG Vector<D> ln(D d, Vector<D> x) {
  return hn::Log(d, x);
}
/// e^x, and what it is beyond 1.
template <class D>
PORTWRIGHT_LANES_LONG Vector<D> exponential(D d, Vector<D> x) {
  return hn::Exp(d, x);
}
template <class D>
PORTWRIGHT_LANES_LONG Vector<D> exponential_less_one(D d, Vector<D> x) {
  return hn::Expm1(d, x);
}
/// x^y, x > 0.
template <class D>
HWY_INLINE Vector<D> power(D d, Vector<D> x, Vector<D> y) {
  return exponential(d, y * ln(d, x));
}

}  // namespace portwright::flow::HWY_NAMESPACE
HWY_AFTER_NAMESPACE();

#endif
