#include "plan/order.hpp"

#include <algorithm>
#include <optional>

#include "cuts/words.hpp"
#include "plan/work.hpp"

namespace portwright::plan {
namespace {

using cuts::Act;

bool moves_squish(const cuts::Cut& cut) {
  return cut.act == Act::gasket_out || cut.act == Act::gasket_to || cut.act == Act::base || cut.act == Act::band ||
         cut.act == Act::crown_edge;
}

/// Sign of an amount that takes metal off; none for cuts that are told otherwise.
std::optional<double> sign_of(Act act) {
  switch (act) {
    case Act::base:
    case Act::band:
    case Act::crown_edge:
    case Act::dome:
    case Act::floor:
    case Act::skirt:
      return -1.0;
    case Act::roof:
    case Act::widen:
      return 1.0;
    default:
      return std::nullopt;
  }
}

const char* goes(Act act) {
  switch (act) {
    case Act::roof:
      return "a roof that is cut goes up";
    case Act::floor:
      return "a floor that is cut goes down";
    case Act::widen:
      return "a port that is cut grows wider";
    default:
      return "what is turned or ground off is told with a minus";
  }
}

}  // namespace

cuts::CutList in_safe_order(const cuts::CutList& list, const cuts::CutList& done, double least,
                            const std::function<Known(const cuts::CutList&)>& squish) {
  cuts::CutList out, rest, others;
  for (std::size_t k = 0; k < list.size(); ++k)
    (is_done(list, k, done) ? out : moves_squish(list[k]) ? rest : others).push_back(list[k]);
  const auto value = [&](const cuts::CutList& so_far) { return squish(so_far).value_or(least); };
  const double start = value(out);
  std::vector<double> after;
  cuts::CutList so_far = out;
  for (const cuts::Cut& cut : rest) {
    so_far.push_back(cut);
    after.push_back(value(so_far));
  }
  // A squish that is under the limit already, or ends there, asks for no better between.
  const double bound = after.empty() ? least : std::min({least, start, after.back()});
  const bool passes = std::any_of(after.begin(), after.end(), [&](double one) { return one < bound - 1e-9; });
  const auto take = [&](bool opening, bool closing) {
    for (std::size_t k = 0; k < rest.size(); ++k) {
      const bool opens = after[k] > (k == 0 ? start : after[k - 1]);
      if (opens ? opening : closing) out.push_back(rest[k]);
    }
  };
  if (passes) {
    take(true, false);
    take(false, true);
  } else {
    take(true, true);
  }
  out.insert(out.end(), others.begin(), others.end());
  return out;
}

base::Errors against_their_kind(const cuts::CutList& done, const std::string& path, const std::string& told) {
  base::Errors out;
  for (std::size_t i = 0; i < done.size(); ++i) {
    const auto sign = sign_of(done[i].act);
    if (!sign || done[i].amount * *sign >= 0.0) continue;
    cuts::Cut meant = done[i];
    meant.amount = -meant.amount;
    out.push_back({base::ErrorCode::out_of_range,
                   cuts::shown(done[i].text) + " " + told + " and would put metal on: " + goes(done[i].act) + ".",
                   path + "." + std::to_string(i + 1),
                   "Only a gasket, a weld or a sleeve gives back. Probably meant:",
                   {cuts::cut_text(meant)}});
  }
  return out;
}

}  // namespace portwright::plan
