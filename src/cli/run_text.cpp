#include <algorithm>
#include <cmath>

#include "cli/parts.hpp"

namespace portwright::cli {
namespace {

constexpr std::size_t label_width = 26, speed_width = 18;                               // of the differences
constexpr std::size_t rpm_width = 8, bar_width = 18, size_width = 18, last_width = 18;  // of the speeds

std::string rpm_text(double rpm, base::UnitStyle style) { return base::value_text({rpm, {}, {}}, "rpm", style); }

const study::Figure* figure_of(const std::vector<study::Figure>& figures, std::string_view id) {
  const auto it = std::find_if(figures.begin(), figures.end(), [&](const auto& f) { return f.id == id; });
  return it == figures.end() ? nullptr : &*it;
}

// One run on its way to a page.
class RunPage {
 public:
  RunPage(const wire::RunAnswer& answer, const Setting& setting)
      : answer_(answer), setting_(setting), page_(setting.coloured), with_cuts_(!answer.head.cuts.empty()) {}

  std::string text() {
    head(page_, answer_.head, with_cuts_ ? "what if, running" : "running");
    stopped(page_, answer_.stopped);
    page_.paragraph({}, answer_.promise);
    if (with_cuts_) differences();
    at_rated();
    over_the_speeds();
    if (setting_.all) every_figure();
    rest();
    return page_.text();
  }

 private:
  [[nodiscard]] std::vector<double> change_speeds() const {
    std::vector<double> out;
    for (const wire::RunChange& change : answer_.changes)
      if (std::none_of(out.begin(), out.end(), [&](double rpm) { return std::abs(rpm - change.rpm) < 0.5; }))
        out.push_back(change.rpm);
    std::sort(out.begin(), out.end());
    return out;
  }

  [[nodiscard]] const wire::RunChange* change_at(const std::string& figure, double rpm) const {
    for (const wire::RunChange& change : answer_.changes)
      if (change.figure == figure && std::abs(change.rpm - rpm) < 0.5) return &change;
    return nullptr;
  }

  // Change over range, a column a speed; what is not told apart says so.
  void differences() {
    const std::vector<double> speeds = change_speeds();
    if (speeds.empty()) return;
    std::string columns_of;
    for (const double rpm : speeds) columns_of += right(rpm_text(rpm, setting_.style), speed_width);
    page_.heading("Differences from stock", columns_of);
    std::vector<std::string> said;
    for (const wire::RunChange& change : answer_.changes) {
      if (std::find(said.begin(), said.end(), change.figure) != said.end()) continue;
      said.push_back(change.figure);
      one_difference(change, speeds);
    }
  }

  void one_difference(const wire::RunChange& of, const std::vector<double>& speeds) {
    std::vector<Piece> first = {{left("  " + of.label, label_width), Ink::plain}};
    std::vector<Piece> second = {{left("", label_width), Ink::plain}};
    for (const double rpm : speeds) {
      const wire::RunChange* change = change_at(of.figure, rpm);
      const bool told = change != nullptr && change->distinguishable;
      const std::string text = change == nullptr ? "\u2014" : told ? change->text : "not told apart";
      first.push_back({right(text, speed_width), told ? Ink::changed : Ink::plain});
      second.push_back({right(change == nullptr ? "" : change->range, speed_width), Ink::faint});
    }
    page_.line(first);
    page_.line(second);
  }

  void at_rated() {
    if (answer_.bands.empty()) return;
    page_.heading("At " + rpm_text(answer_.rated_rpm, setting_.style) + ", " + answer_.rated_from, "95 % range");
    for (const study::Figure& figure : answer_.bands) one_figure(figure);
  }

  // "Power   about 1.5 to 3.0 kW": an order of size is its own range.
  void one_figure(const study::Figure& figure) {
    constexpr std::size_t name_width = 34, text_width = 24;
    const bool is_range = figure.text.rfind("about", 0) == 0;
    const std::string range = is_range || !figure.value ? ""
                                                        : base::range_text({*figure.value, figure.low, figure.high},
                                                                           figure.unit, setting_.style);
    page_.line({{"  " + left(figure.label, name_width), Ink::plain},
                {left(figure.text, text_width), Ink::bold},
                {left(range, page_width - 2 - name_width - text_width), Ink::faint}});
  }

  [[nodiscard]] double greatest_power() const {
    double most = 0.0;
    for (const wire::RunPoint& point : answer_.points)
      if (const auto* power = figure_of(point.figures, "run.power"); power != nullptr)
        most = std::max(most, power->value.value_or(0.0));
    return most;
  }

  // The curve's shape as bars, its height as an order of size.
  void over_the_speeds() {
    if (answer_.points.empty()) return;
    page_.heading("Over speed, rpm", right("power, kW", size_width) + right("torque, N m", size_width) +
                                         right(with_cuts_ ? "power from stock" : "charging", last_width));
    const double most = greatest_power();
    for (const wire::RunPoint& point : answer_.points) one_speed(point, most);
    unsettled();
  }

  void one_speed(const wire::RunPoint& point, double most) {
    const auto* power = figure_of(point.figures, "run.power");
    const double share = power == nullptr || most <= 0.0 ? 0.0 : power->value.value_or(0.0) / most;
    std::string bar;
    for (int i = 0; i < static_cast<int>(std::lround(share * (bar_width - 3))); ++i) bar += "\u2501";
    const auto [last, ink] =
        with_cuts_ ? changed(power) : std::pair{number_of(figure_of(point.figures, "run.charging")), Ink::plain};
    page_.line({{(point.settled == "stable" ? "  " : "\u25C7 ") + right(base::number_text(point.rpm, 0), rpm_width - 2),
                 Ink::plain},
                {"  " + left(bar, bar_width - 2), ink},
                {right(number_of(power), size_width), Ink::bold},
                {right(number_of(figure_of(point.figures, "run.torque")), size_width), Ink::plain},
                {right(last, last_width), ink}});
  }

  // What the diamonds stand for, kind by kind.
  void unsettled() {
    std::vector<std::string> kinds;
    for (const wire::RunPoint& point : answer_.points)
      if (point.settled != "stable" && std::find(kinds.begin(), kinds.end(), point.settled) == kinds.end())
        kinds.push_back(point.settled);
    for (const std::string& kind : kinds) {
      std::vector<std::string> speeds;
      for (const wire::RunPoint& point : answer_.points)
        if (point.settled == kind) speeds.push_back(base::number_text(point.rpm, 0));
      page_.paragraph({"\u25C7 ", Ink::plain}, kind + ": " + listed(speeds) + " rpm", Ink::faint);
    }
  }

  // "1.5 to 3.0" of "about 1.5 to 3.0 kW"; the unit stands in the head.
  [[nodiscard]] static std::string number_of(const study::Figure* figure) {
    if (figure == nullptr || !figure->value) return "\u2014";
    std::string text = figure->text;
    if (text.rfind("about ", 0) == 0) text.erase(0, 6);
    if (figure->unit != "-" && text.size() > figure->unit.size() && text.ends_with(' ' + figure->unit))
      text.erase(text.size() - figure->unit.size() - 1);
    return text;
  }

  [[nodiscard]] std::pair<std::string, Ink> changed(const study::Figure* power) const {
    if (power == nullptr || !power->change) return {"\u2014", Ink::plain};
    const study::Change& change = *power->change;
    if (!change.distinguishable) return {"not told apart", Ink::plain};
    return {base::change_text({change.value, change.low, change.high}, power->unit, setting_.style), Ink::changed};
  }

  void every_figure() {
    for (const wire::RunPoint& point : answer_.points) {
      page_.heading("At " + rpm_text(point.rpm, setting_.style),
                    point.settled + ", " + std::to_string(point.cycles) + " turns");
      for (const study::Figure& figure : point.figures) one_figure(figure);
    }
  }

  void rest() {
    if (!answer_.figures.empty()) page_.line();
    for (const study::Figure& figure : answer_.figures)
      page_.paragraph({"  ", Ink::plain}, figure.label + ": " + figure.text + ". " + figure.why);
    for (const std::string& warning : answer_.warnings) page_.paragraph({"  ! ", Ink::caution}, warning);
    findings(page_, answer_.findings, names(), setting_.all);
    for (const std::string& file : answer_.written) page_.line("Written: " + file);
    assumed_running(page_, answer_.head.assumed, setting_);
    cautions(page_, answer_.cautions);
  }

  [[nodiscard]] std::vector<study::Figure> names() const {
    std::vector<study::Figure> out = answer_.figures;
    if (!answer_.points.empty())
      out.insert(out.end(), answer_.points.front().figures.begin(), answer_.points.front().figures.end());
    return out;
  }

  const wire::RunAnswer& answer_;
  const Setting& setting_;
  Page page_;
  bool with_cuts_;
};

}  // namespace

std::string run_text(const wire::RunAnswer& answer, const Setting& setting) { return RunPage(answer, setting).text(); }

}  // namespace portwright::cli
