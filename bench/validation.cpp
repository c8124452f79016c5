// What docs/validation.md says of the simulation, measured: bench_validation signs | parts | anchor [saw file ..].
// Tables on standard output, as they stand in the page; signs also writes signs.svg where it stands.
#include <cmath>
#include <fstream>
#include <functional>

#include "draw/svg.hpp"
#include "sheet/chart.hpp"
#include "support/saws.hpp"

namespace {

using namespace portwright;
using namespace portwright::bench;

constexpr const char* sign_cuts[] = {"roof exhaust +1 mm", "roof primary +1 mm",  "outlets to 2 cm2", "advance +4 deg",
                                     "base -0.5 mm",       "widen exhaust +1 mm", "case +15 cc"};

/// One cut on one saw: change of power over the share of the rpm of greatest power.
struct Line {
  std::string saw;
  std::vector<double> share, change;  ///< [-], [%]
  std::vector<bool> settled;
};

std::vector<Line> lines_of(const Saw& saw) {
  const cycle::Network stock = network(saw, saw.engine);
  const double peak = peak_rpm(stock);
  const std::vector<double> shares = {0.5, 0.6, 0.7, 0.8, 0.9, 1.0, 1.1, 1.2, 1.3};
  std::vector<double> rpm;
  for (const double share : shares) rpm.push_back(share * peak);
  const int turns = stock.has_reed ? 8 : 0;
  const auto base = points(stock, rpm, turns);
  std::vector<Line> out(std::size(sign_cuts));
  shared_out(out.size(), [&](std::size_t c) {
    const auto cut = points(network(saw, with_cuts(saw, sign_cuts[c])), rpm, turns);
    out[c] = {saw.name + " (" + sheet::chart::number(peak) + ")", shares, {}, {}};
    for (std::size_t i = 0; i < rpm.size(); ++i) {
      out[c].change.push_back(100.0 * (cut[i].power / base[i].power - 1.0));
      out[c].settled.push_back(cut[i].label == cycle::Label::stable && base[i].label == cycle::Label::stable);
    }
  });
  return out;
}

/// A panel for each cut, a line for each saw; where turns do not repeat the line has no mark.
std::string picture(const std::vector<std::vector<Line>>& saws) {
  using namespace sheet::chart;
  constexpr draw::Dash dashes[] = {draw::Dash::solid, draw::Dash::hidden, draw::Dash::dotted, draw::Dash::centre};
  constexpr double height = 34.0, top = 12.0;
  ChartPage page;
  page.canvas = draw::Canvas(page_width, top + height * static_cast<double>(std::size(sign_cuts)) + 8.0);
  draw_head(page, "Change of power, %", "over rpm in shares of stock's rpm of greatest power", "");
  for (std::size_t c = 0; c < std::size(sign_cuts); ++c) {
    double low = -1.0, high = 1.0;
    for (const auto& saw : saws)
      for (const double x : saw[c].change) low = std::min(low, x), high = std::max(high, x);
    Panel panel;
    const double from = top + height * static_cast<double>(c) + 8.0;
    panel.box = {margin + 10.0, from, page_width - margin - 24.0, from + height - 12.0};
    panel.x = {0.5, 1.3, 0.1, 1};
    panel.y = scale_over(low, high, 4);
    draw_upright_scale(page, panel, sign_cuts[c]);
    draw_level_scale(page, panel, "of peak rpm", c + 1 == std::size(sign_cuts));
    page.canvas.stroke(draw::line(panel.at(0.5, 0.0), panel.at(1.3, 0.0)), {draw::Role::rule, draw::weight::fine});
    std::vector<double> ends;
    for (const auto& saw : saws) ends.push_back(panel.at_y(saw[c].change.back()));
    const auto beside = apart(ends, 3.2, panel.box.top, panel.box.bottom);
    for (std::size_t s = 0; s < saws.size(); ++s) {
      std::vector<draw::Point> line;
      for (std::size_t i = 0; i < saws[s][c].share.size(); ++i)
        line.push_back(panel.at(saws[s][c].share[i], saws[s][c].change[i]));
      page.canvas.stroke(draw::polyline(smooth(line)),
                         {draw::Role::ink, draw::weight::visible, dashes[s % std::size(dashes)]});
      for (std::size_t i = 0; i < line.size(); ++i)
        if (saws[s][c].settled[i]) page.canvas.stroke(draw::line(line[i], line[i]), {draw::Role::ink, 0.9});
      page.canvas.letter({panel.box.right + 1.5, beside[s] + 0.8}, saws[s][c].saw, {draw::Role::reason, 1.9});
    }
  }
  page.canvas.title = "Change of power by single cuts";
  page.canvas.description =
      "Change of power in per cent over speed, one panel for each of seven cuts, one line for each saw.";
  return draw::to_svg(page.canvas);
}

/// Signs of single cuts at half, at once and at 1.3 of the rpm of greatest power.
void signs(const std::vector<std::string>& saws) {
  std::vector<std::vector<Line>> all;
  for (const std::string& path : saws) all.push_back(lines_of(load(path)));
  std::printf("| saw (rpm of greatest power) | cut | at half | at peak | at 1.3 | [change of power, %%]\n");
  for (const auto& saw : all)
    for (std::size_t c = 0; c < saw.size(); ++c) {
      std::printf("| %s | %s |", saw[c].saw.c_str(), sign_cuts[c]);
      for (std::size_t i = 0; i < saw[c].share.size(); i += 1)
        if (i == 0 || i == 5 || i + 1 == saw[c].share.size())
          std::printf(" %+.1f%s |", saw[c].change[i], saw[c].settled[i] ? "" : "*");
      std::printf("\n");
    }
  std::ofstream("signs.svg") << picture(all);
}

/// Ducts of a role a tenth as long: their gas weighs a tenth, and its waves are gone.
void shorten(cycle::Network& net, cycle::Role role) {
  for (std::size_t d = 0; d < net.ducts.size(); ++d) {
    if (net.names[d].role != role) continue;
    flow::Grid& grid = net.ducts[d].grid;
    for (std::vector<double>* each : {&grid.length, &grid.volume, &grid.wall})
      for (double& x : *each) x *= 0.1;
  }
}

/// Change of power when a part of the model is taken away or made too simple.
void parts(const std::vector<std::string>& saws) {
  using Change = std::function<void(cycle::Assumptions&, cycle::Network&)>;
  const auto take = [](double cycle::Assumptions::*member, double value) {
    return [=](cycle::Assumptions& a, cycle::Network&) { a.*member = value; };
  };
  const std::pair<const char*, Change> rows[] = {
      {"perfect mixing (no bias)", take(&cycle::Assumptions::exit_bias, 0.0)},
      {"displacement, then mixing", take(&cycle::Assumptions::second_law, 1.0)},
      {"completeness does not feel dilution", take(&cycle::Assumptions::completeness_slope, 0.0)},
      {"friction that does not grow with speed", take(&cycle::Assumptions::friction_speed, 0.0)},
      {"no short circuit that grows", take(&cycle::Assumptions::short_circuit_rise, 0.0)},
      {"muffler at the day's pressure (boxes 1,000 times as large)",
       [](cycle::Assumptions&, cycle::Network& net) {
         for (cycle::Room& room : net.rooms)
           if (room.behind_exhaust) room.size *= 1e3;
       }},
      {"exhaust duct without its gas (a tenth as long)",
       [](cycle::Assumptions&, cycle::Network& net) { shorten(net, cycle::Role::exhaust); }},
      {"intake without inertia (tract a tenth as long)",
       [](cycle::Assumptions&, cycle::Network& net) { shorten(net, cycle::Role::tract); }},
      {"passages without inertia (a tenth as long)",
       [](cycle::Assumptions&, cycle::Network& net) { shorten(net, cycle::Role::transfer); }}};
  for (const std::string& path : saws) {
    const Saw saw = load(path);
    const std::vector<double> speeds = {5000, 7000, 9000};
    const cycle::Network stock = network(saw, saw.engine);
    const int turns = stock.has_reed ? 8 : 0;
    const auto base = points(stock, speeds, turns);
    shared_out(std::size(rows), [&](std::size_t r) {
      cycle::Assumptions less = cycle::middle_assumptions();
      cycle::Network unused;
      rows[r].second(less, unused);
      cycle::Network net = network(saw, saw.engine, 1.0, less);
      rows[r].second(less, net);
      const auto run = points(net, speeds, turns);
      std::string line = "| " + saw.name + " | " + rows[r].first + " |";
      for (std::size_t i = 0; i < speeds.size(); ++i) {
        char text[24];
        std::snprintf(text, sizeof text, " %+.1f%s |", 100.0 * (run[i].power / base[i].power - 1.0),
                      run[i].label == cycle::Label::stable ? "" : "*");
        line += text;
      }
      std::puts(line.c_str());
      std::fflush(stdout);
    });
  }
}

void anchor(const std::vector<std::string>& saws) {
  for (const std::string& path : saws) {
    const Saw saw = load(path);
    const cycle::Network net = network(saw, saw.engine);
    for (const auto& p : points(net, ladder(7500, 11500, 250)))
      std::printf("| %s | %.0f | %.2f kW | %.2f bar | %s |\n", saw.name.c_str(), p.speed * 60.0, p.power / 1e3,
                  p.bmep / 1e5, label(p.label));
  }
}

}  // namespace

int main(int count, char** words) {
  const std::string what = count > 1 ? words[1] : "";
  const std::vector<std::string> given(words + std::min(count, 2), words + count);
  const auto saws = [&](std::vector<std::string> otherwise) { return given.empty() ? otherwise : given; };
  if (what == "signs")
    signs(saws({sample("alder-60"), sample("oak-110"), sample("spruce-92")}));
  else if (what == "parts")
    parts(saws({sample("alder-60"), sample("oak-110"), sample("spruce-92")}));
  else if (what == "anchor")
    anchor(saws({PORTWRIGHT_SOURCE_DIR "/tests/reference/cycle/forty_two.saw.toml"}));
  else
    return std::fputs("bench_validation signs | parts | anchor [saw file ..]\n", stderr), 2;
  return 0;
}
