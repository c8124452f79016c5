#include "numerics/student.hpp"

#include <boost/math/distributions/students_t.hpp>

namespace portwright::numerics {

double student_quantile(double share, double freedom) {
  return boost::math::quantile(boost::math::students_t(freedom), share);
}

}  // namespace portwright::numerics
