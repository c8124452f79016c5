// Where the air goes.
#include <gtest/gtest.h>

#include <map>
#include <string>

#include "cycle/airflow.hpp"
#include "unit/support/sample_engines.hpp"

namespace portwright::cycle {
namespace {

TEST(air_flow, shares_of_each_role_add_up_and_no_loss_gives_energy) {
  for (const char* name : {"alder-60", "spruce-92"}) {
    SCOPED_TRACE(name);
    const Network net = bench::sample_network(name);
    const Airflow flow = air_flow(net, 150.0, {});
    std::map<Role, double> whole;
    for (const DuctFlow& duct : flow.ducts) {
      whole[duct.name.role] += duct.share;
      EXPECT_GE(duct.forward, 0.0);
      EXPECT_GE(duct.back, 0.0);
      std::map<Cause, int> rows;
      for (const CauseLoss& loss : duct.losses) {
        EXPECT_EQ(++rows[loss.cause], 1) << "a cause is one row";
        EXPECT_GE(loss.energy, 0.0) << cause_name(loss.cause);
        EXPECT_GE(loss.pressure, 0.0) << cause_name(loss.cause);
        EXPECT_FALSE(std::string(cause_name(loss.cause)).empty());
      }
    }
    for (const auto& [role, share] : whole) EXPECT_NEAR(share, 1.0, 1e-12);
    EXPECT_GT(flow.drawn, flow.trapped);
    EXPECT_GT(flow.short_lost, 0.0);
  }
}

double share_of_first(const bench::SampleEngine& sample, double* mouth_loss) {
  const Airflow flow = air_flow(bench::network_of(sample), 150.0, {});
  for (const DuctFlow& duct : flow.ducts)
    if (duct.name.role == Role::transfer) {
      for (const CauseLoss& loss : duct.losses)
        if (loss.cause == Cause::mouth) *mouth_loss = loss.pressure;
      return duct.share;
    }
  return 0.0;
}

TEST(air_flow, opening_a_narrow_mouth_raises_its_passage_s_share) {
  bench::SampleEngine sample = bench::sample_engine("alder-60");
  geometry::Port* first = nullptr;
  for (geometry::Port& port : sample.engine.ports)
    if (port.kind == geometry::PortKind::transfer && first == nullptr) first = &port;
  ASSERT_NE(first, nullptr);
  const double foot = first->passage.foot.value_or(1.2e-4);
  first->passage.foot = base::Known(foot);
  double narrow_loss = 0.0, open_loss = 0.0;
  first->passage.mouth = base::Known(0.45 * foot);
  const double narrow = share_of_first(sample, &narrow_loss);
  first->passage.mouth = base::Known(foot);
  const double open = share_of_first(sample, &open_loss);
  EXPECT_GT(open, narrow + 0.005);
  EXPECT_LT(open_loss, 0.5 * narrow_loss);
}

}  // namespace
}  // namespace portwright::cycle
