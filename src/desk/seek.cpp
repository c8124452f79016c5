#include "desk/seek.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "base/file.hpp"
#include "desk/aims.hpp"
#include "desk/planned.hpp"
#include "desk/seek_bar.hpp"
#include "desk/seek_memory.hpp"
#include "desk/turning.hpp"
#include "desk/written.hpp"
#include "saw/file.hpp"
#include "seek/answers.hpp"

namespace portwright::desk {
namespace {

constexpr double percent = 100.0;
constexpr const char* promise_text =
    "Figures are changes from stock in the simulation, under the middles of what it takes for granted, and their "
    "ranges over sets of it; no saw was cut to prove them. What lies at the end of a cut lies there because no more "
    "was "
    "tried. What the metal stands, starting and idling are not searched: look at them before cutting.";

std::string change_text(double share) {
  return (share < 0.0 ? "\u2212" : "+") + base::number_text(percent * std::abs(share), 1) + " %";
}

/// @param sign  of the gain in the answer: heat that falls is a gain
wire::SeekGain gain_of(const seek::Gain& gain, double sign) {
  wire::SeekGain out;
  out.percent = percent * sign * gain.value;
  out.text = change_text(sign * gain.value);
  if (!gain.range) return out;
  const double a = sign * gain.range->low, b = sign * gain.range->high;
  out.low = percent * std::min(a, b);
  out.high = percent * std::max(a, b);
  out.told_apart = gain.told_apart();
  out.range_text = change_text(std::min(a, b)) + " to " + change_text(std::max(a, b));
  if (!out.told_apart) out.text = "not told apart";
  return out;
}

wire::SeekTried tried_of(const seek::Tried& tried, bool least_heat) {
  wire::SeekTried out;
  const seek::Judged& judged = tried.judged;
  out.holds =
      judged.possible && std::all_of(judged.holds.begin(), judged.holds.end(), [](double hold) { return hold >= 0.0; });
  if (!judged.possible) return out;
  out.aim = percent * (least_heat ? -1.0 : 1.0) * judged.gains[seek::gain_aim];
  out.pull = percent * judged.gains[seek::gain_pull];
  out.power = percent * judged.gains[seek::gain_peak];
  out.heat = -percent * judged.gains[seek::gain_heat];
  return out;
}

/// One search on its way.
class Seeking {
 public:
  Seeking(const SeekRequest& request, const SeekWatch& watch, Case opened)
      : request_(request), watch_(watch), opened_(std::move(opened)) {}

  base::ResultAll<wire::SeekAnswer> go() {
    if (base::Errors errors = read(); !errors.empty()) return tl::unexpected(std::move(errors));
    if (const auto network = network_of(geometry::resolve(opened_.survey), opened_.survey); !network)
      return tl::unexpected(network.error());
    if (wish_.aim.bar > 0.0) {
      const auto bar = bar_speed(opened_, wish_.aim.bar, request_.threads);
      if (!bar) return tl::unexpected(bar.error());
      answer_.bar_text = bar->text;
      if (wish_.aim.speed <= 0.0) wish_.aim.speed = bar->speed;
      answer_.aim_text = seek::aim_text(wish_.aim);
    }
    auto ground = plan::Ground::make(wish_.geometry, knobs_, opened_.survey, settings_);
    if (!ground) return tl::unexpected(ground.error());
    ground_ = &*ground;
    of_ = saw::write_saw(opened_.readings) + '\n' + request_.wishes + '\n' + request_.free;
    auto before = memory_of(request_.memory, of_, knobs_.size());
    if (!before) return only(before);
    begin();
    seek::SeekPlan plan;
    plan.search.most = before->empty() ? most_at_first : before->size() + more_when_resumed;
    if (request_.lists > 0) plan.search.most = static_cast<std::size_t>(request_.lists);
    plan.members = request_.members;
    if (request_.seconds > 0.0) plan.seconds = request_.seconds;
    plan.step = settings_.step;
    plan.threads = request_.threads;
    const auto told = [this](const seek::Progress& progress) { return tell(progress); };
    auto found = seek::seek(*ground, wish_, opened_.survey, plan, *std::move(before), told);
    if (!found) return tl::unexpected(found.error());
    finish(*found);
    return std::move(answer_);
  }

 private:
  static constexpr std::size_t most_at_first = 160, more_when_resumed = 120;

  base::Errors read() {
    base::Errors errors;
    const auto add = [&](const base::Errors& more) { errors.insert(errors.end(), more.begin(), more.end()); };
    if (auto wish = seek::parse_engine_wish(request_.wishes))
      wish_ = *std::move(wish);
    else
      add(wish.error());
    const geometry::Engine stock = geometry::resolve(opened_.survey);
    if (auto knobs = plan::chosen(plan::knobs_of(opened_.survey, stock), request_.free))
      knobs_ = *std::move(knobs);
    else
      add(knobs.error());
    if (auto step = step_of(request_.step))
      settings_.step = *step;
    else
      add({step.error()});
    if (auto chance = chance_of(request_.chance))
      settings_.chance = *chance;
    else
      add({chance.error()});
    if (request_.seconds < 0.0 || request_.seconds > 3600.0)
      add({{base::ErrorCode::out_of_range, "No search takes so long.", "seconds", "Give up to 3,600 s.", {}}});
    settings_.folder = folder_of(request_.file);
    settings_.study = study_options({}, request_.style);
    return errors;
  }

  void begin() {
    answer_.head = opened_.head;
    answer_.wish = request_.wishes;
    answer_.aim_text = seek::aim_text(wish_.aim);
    for (const plan::Knob& knob : knobs_) answer_.free.push_back({knob.name, knob.label, knob.amount_text(knob.most)});
    answer_.kept = ground_->kept();
    if (!wish_.low_speed_free)
      answer_.kept.push_back(
          "Torque at half of the speed of most power falls by 2 % at most; \u201Clow speed free\u201D lets it");
    answer_.kept.push_back("No list knocks at the speeds turned where stock does not (integral up to 0.9)");
    const auto is_free = [&](plan::Knob::Kind kind) {
      return std::any_of(knobs_.begin(), knobs_.end(), [&](const plan::Knob& knob) { return knob.kind == kind; });
    };
    if (!is_free(plan::Knob::Kind::outlets))
      answer_.kept.push_back(
          "The muffler's outlets stay as they are. Widened, they take nothing off the engine and can be put back: try "
          "\u201Coutlets\u201D among the free cuts before metal goes");
    answer_.promise = promise_text;
    answer_.cautions = cautions();
  }

  bool tell(const seek::Progress& progress) {
    answer_.doing = progress.doing;
    answer_.share = progress.share;
    if (progress.tried.size() != answer_.tried.size()) {
      take_tried({progress.tried.begin(), progress.tried.end()});
      if (progress.best < progress.tried.size()) {
        answer_.best = answer_.tried[progress.best];
        answer_.best_cuts = cuts::cuts_text(ground_->cuts(progress.tried[progress.best].design));
      }
    }
    return watch_ && watch_(answer_);
  }

  void take_tried(const std::vector<seek::Tried>& tried) {
    answer_.tried.clear();
    const bool least_heat = wish_.aim.figure == seek::Figure::heat;
    for (const seek::Tried& one : tried) answer_.tried.push_back(tried_of(one, least_heat));
    answer_.tried_count = static_cast<int>(tried.size());
    answer_.memory = memory_text(of_, tried);
  }

  void finish(const seek::Sought& found) {
    answer_.rated_rpm = found.asked.rated * rpm_per_rev;
    take_tried(found.tried);
    const double sign = wish_.aim.figure == seek::Figure::heat ? -1.0 : 1.0;
    for (const seek::Alone& one : found.alone) {
      const plan::Knob& knob = knobs_[one.knob];
      answer_.alone.push_back({knob.name, knob.label, knob.amount_text(one.share * knob.most),
                               percent * sign * one.gains[seek::gain_aim], percent * one.gains[seek::gain_pull],
                               percent * one.gains[seek::gain_peak], -percent * one.gains[seek::gain_heat]});
    }
    answer_.against = found.against;
    answer_.sentence = seek::sentence(found);
    answer_.stopped = found.stopped;
    answer_.out_of_time = found.out_of_time;
    answer_.done = true;
    if (!found.stopped) answer_.share = 1.0;
    answer_.doing = found.stopped ? "stopped" : "done";
    for (const seek::Answer& one : found.answers) answer_.answers.push_back(way_of(one, found));
    if (found.answers.empty()) return;
    // Whoever stopped it waits.
    if (found.stopped)
      answer_.warnings.push_back("What these cuts make worse was not looked at: study --cuts says it");
    else
      add_worse(found);
  }

  void add_worse(const seek::Sought& found) {
    const auto kept = study::sample_stock(opened_.survey, settings_.study);
    const auto stock = study::study(opened_.survey, {}, nullptr, settings_.study, kept.get());
    answer_.head.assumed = stock.assumed;
    for (std::size_t i = 0; i < found.answers.size(); ++i)
      answer_.answers[i].worse = worse_of(found.answers[i].cuts, stock, *kept);
  }

  wire::SeekWay way_of(const seek::Answer& answer, const seek::Sought& found) const {
    wire::SeekWay out;
    out.why = answer.why;
    out.cuts = cuts::cuts_text(answer.cuts);
    for (std::size_t k = 0; k < knobs_.size(); ++k) {
      const double share = answer.shares[k];
      if (!(share * knobs_[k].most > 1e-9)) continue;
      out.steps.push_back(
          {knobs_[k].name, knobs_[k].label, knobs_[k].amount_text(share * knobs_[k].most), share > 1.0 - 1e-6});
    }
    const double sign = wish_.aim.figure == seek::Figure::heat ? -1.0 : 1.0;
    out.aim = gain_of(answer.gains[seek::gain_aim], sign);
    out.pull = gain_of(answer.gains[seek::gain_pull], 1.0);
    out.power = gain_of(answer.gains[seek::gain_peak], 1.0);
    out.heat = gain_of(answer.gains[seek::gain_heat], -1.0);
    for (std::size_t i = 0; i < found.asked.speeds.size(); ++i) {
      const double was = found.stock.torque[i];
      if (was > 0.0)
        out.torque.push_back({found.asked.speeds[i] * rpm_per_rev, percent * (answer.outcome.torque[i] / was - 1.0)});
    }
    out.knock = *std::max_element(answer.outcome.knock.begin(), answer.outcome.knock.end());
    const auto account = cuts::account(answer.cuts, opened_.survey, ground_->stock(), settings_.folder);
    out.metal_text = account.metal ? base::number_text(*account.metal * 1e9, 0) + " mm\u00B3" : "waits for readings";
    return out;
  }

  /// Findings that stand worse after the cuts than before them.
  [[nodiscard]] std::vector<std::string> worse_of(const cuts::CutList& list, const study::Study& stock,
                                                  const study::StockSamples& kept) const {
    std::vector<std::string> out;
    const auto ready = cuts::prepare(list, opened_.survey, settings_.folder);
    if (!ready) return out;
    study::Options options = settings_.study;
    options.next_reading = false;
    const study::Study cut = study::study(opened_.survey, list, ready->get(), options, &kept);
    for (const study::Finding& finding : cut.findings) {
      if (finding.state != study::State::stop && finding.state != study::State::caution) continue;
      const auto before = std::find_if(stock.findings.begin(), stock.findings.end(), [&](const study::Finding& one) {
        return one.rule == finding.rule && one.figure == finding.figure;
      });
      if (before != stock.findings.end() && before->state >= finding.state) continue;
      out.push_back(finding.text);
    }
    return out;
  }

  const SeekRequest& request_;
  const SeekWatch& watch_;
  Case opened_;
  seek::EngineWish wish_;
  std::vector<plan::Knob> knobs_;
  plan::Settings settings_;
  const plan::Ground* ground_ = nullptr;
  std::string of_;
  wire::SeekAnswer answer_;
};

}  // namespace

base::ResultAll<wire::SeekAnswer> seek(const SeekRequest& asked, const SeekWatch& watch) {
  SeekRequest request = asked;
  std::error_code ignored;
  if (!request.keep.empty() && std::filesystem::exists(request.keep, ignored)) {
    auto kept = base::read_file(request.keep, longest_memory);
    if (!kept) return only(kept);
    request.memory = *std::move(kept);
  }
  auto opened = open_turning(request.file, "", request.book);
  if (!opened) return tl::unexpected(opened.error());
  auto out = Seeking(request, watch, *std::move(opened)).go();
  if (out && !request.keep.empty() && !out->memory.empty())
    if (auto done = put(request.keep, out->memory); !done) return only(done);
  return out;
}

}  // namespace portwright::desk
