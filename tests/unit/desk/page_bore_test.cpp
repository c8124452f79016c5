// The bore for a drawing: what its paths enclose, what opens when, and what is left out.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <numbers>
#include <sstream>

#include "desk/desk.hpp"
#include "desk/page.hpp"
#include "wire/json_page.hpp"

namespace {

using namespace portwright;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
namespace fs = std::filesystem;

const fs::path samples = fs::path(PORTWRIGHT_SOURCE_DIR) / "data/samples";

std::vector<std::string> sample_files() {
  std::vector<std::string> out;
  for (const auto& entry : fs::directory_iterator(samples)) out.push_back(entry.path().string());
  return out;
}
std::string sample(const char* name) { return (samples / (std::string(name) + ".saw.toml")).string(); }

desk::WhatIf with(const std::string& cuts) {
  desk::WhatIf what_if;
  what_if.cuts = cuts;
  return what_if;
}

wire::BoreAnswer bore_of(const std::string& file, const std::string& cuts = {}) {
  const auto answer = desk::bore(desk::BoreRequest{file, with(cuts), {}});
  if (!answer) throw std::runtime_error(answer.error().front().message);
  return *answer;
}
wire::StudyAnswer study_of(const std::string& file, const std::string& cuts = {}) {
  const auto answer = desk::study({file, cuts, {}});
  if (!answer) throw std::runtime_error(answer.error().front().message);
  return *answer;
}
std::optional<double> figure(const wire::StudyAnswer& study, const std::string& id) {
  for (const study::Figure& one : study.figures)
    if (one.id == id) return one.value;
  return std::nullopt;
}

struct Corner {
  double x, y;
};
using Loop = std::vector<Corner>;

/// Points of an arc of less than half a turn, its start left out.
void add_arc(Loop& loop, Corner to, double radius, bool clockwise) {
  const Corner from = loop.back();
  const double dx = to.x - from.x, dy = to.y - from.y, chord = std::hypot(dx, dy);
  const double half = std::asin(std::min(1.0, 0.5 * chord / radius)), away = radius * std::cos(half);
  // With y down and sweep clockwise the centre lies to the right of the way.
  const double side = clockwise ? 1.0 : -1.0;
  const Corner centre{0.5 * (from.x + to.x) - side * away * dy / chord,
                      0.5 * (from.y + to.y) + side * away * dx / chord};
  const double start = std::atan2(from.y - centre.y, from.x - centre.x);
  constexpr int parts = 4000;
  for (int k = 1; k <= parts; ++k) {
    const double at = start + side * 2.0 * half * k / parts;
    loop.push_back({centre.x + radius * std::cos(at), centre.y + radius * std::sin(at)});
  }
}

std::vector<Loop> loops_of(const std::string& path) {
  std::vector<Loop> out;
  std::istringstream in(path);
  const auto corner = [&] {
    Corner c{};
    in >> c.x >> c.y;
    return c;
  };
  for (char order = 0; in >> order;) {
    if (order == 'M') out.push_back({corner()});
    if (order == 'L') out.back().push_back(corner());
    if (order != 'A') continue;
    double rx = 0, ry = 0, turn = 0;
    int large = 0, sweep = 0;
    in >> rx >> ry >> turn >> large >> sweep;
    add_arc(out.back(), corner(), rx, sweep == 1);
  }
  return out;
}

/// Area of the loops above a level, y down [mm2].
double area_above(const std::vector<Loop>& loops, double level) {
  double twice = 0.0;
  for (const Loop& loop : loops) {
    Loop cut;
    for (std::size_t i = 0; i < loop.size(); ++i) {
      const Corner a = loop[i], b = loop[(i + 1) % loop.size()];
      if (a.y <= level) cut.push_back(a);
      if ((a.y <= level) != (b.y <= level)) cut.push_back({a.x + (b.x - a.x) * (level - a.y) / (b.y - a.y), level});
    }
    for (std::size_t i = 0; i < cut.size(); ++i) {
      const Corner a = cut[i], b = cut[(i + 1) % cut.size()];
      twice += a.x * b.y - b.x * a.y;
    }
  }
  return std::abs(0.5 * twice);
}

double open_by_paths(const std::vector<wire::BoreWindow>& windows, const std::string& port, double level) {
  double area = 0.0;
  for (const wire::BoreWindow& window : windows)
    if (window.port == port) area += area_above(loops_of(window.path), level);
  return area;
}

TEST(bore, windows_enclose_what_the_areas_say_is_open_at_every_place_of_the_crown) {
  int held = 0;
  for (const std::string& file : sample_files()) {
    const wire::BoreAnswer answer = bore_of(file);
    for (const wire::BoreArea& area : answer.areas) {
      if (area.kind == "intake" || area.kind == "air") continue;
      for (const std::size_t deg : {110U, 130U, 180U, 215U}) {
        const double level = answer.drop_mm->at(deg);
        EXPECT_NEAR(open_by_paths(answer.windows, area.port, level), area.mm2.at(deg), 1e-6 * area.mm2.at(180) + 2e-5)
            << file << ' ' << area.port << ' ' << deg;
        ++held;
      }
    }
  }
  EXPECT_GT(held, 30);
}

TEST(bore, windows_enclose_the_area_of_the_study) {
  const std::string file = sample("alder-60");
  const wire::BoreAnswer answer = bore_of(file);
  const wire::StudyAnswer study = study_of(file);
  for (const wire::BoreWindow& window : answer.windows) {
    if (window.side == 1) continue;
    const auto area = figure(study, "port." + window.port + ".area");
    ASSERT_TRUE(area) << window.id;
    EXPECT_NEAR(area_above(loops_of(window.path), 1e9), 100.0 * *area, 1e-6 * 100.0 * *area + 2e-5) << window.id;
  }
}

TEST(bore, windows_lie_inside_the_frame_and_in_their_boxes) {
  for (const std::string& file : sample_files()) {
    const wire::BoreAnswer answer = bore_of(file);
    for (const wire::BoreWindow& window : answer.windows) {
      EXPECT_GT(window.x_mm, 0.0) << window.id;
      EXPECT_LT(window.x_mm + window.w_mm, *answer.around_mm) << window.id;
      for (const Loop& loop : loops_of(window.path))
        for (const Corner& c : loop) {
          EXPECT_GT(c.x, window.x_mm - 1e-5) << window.id;
          EXPECT_LT(c.x, window.x_mm + window.w_mm + 1e-5) << window.id;
          EXPECT_GT(c.y, window.y_mm - 1e-5) << window.id;
          EXPECT_LT(c.y, window.y_mm + window.h_mm + 1e-5) << window.id;
        }
      EXPECT_NEAR(window.roof.at_mm, window.y_mm, 1e-9) << window.id;
      EXPECT_NEAR(window.floor.at_mm, window.y_mm + window.h_mm, 1e-9) << window.id;
    }
  }
}

TEST(bore, events_are_the_figures_of_the_study) {
  for (const char* cuts : {"", "base -0.3 mm; roof exhaust +0.8 mm"}) {
    for (const std::string& file : sample_files()) {
      const wire::BoreAnswer answer = bore_of(file, cuts);
      const wire::StudyAnswer study = study_of(file, cuts);
      for (const wire::BoreEvent& event : answer.events) {
        if (event.kind == "free_port") continue;
        if (event.kind == "blowdown") {
          EXPECT_NEAR(event.duration_deg, figure(study, "timing.blowdown").value_or(-1), 1e-9) << file;
          continue;
        }
        const bool by_skirt = event.kind == "intake" || event.kind == "air";
        const double opens = by_skirt ? 360.0 - event.opens_deg : event.opens_deg;
        EXPECT_NEAR(opens, figure(study, "port." + event.id + ".opens").value_or(-1), 1e-9) << file << event.id;
        EXPECT_NEAR(event.closes_deg, figure(study, "port." + event.id + ".closes").value_or(-1), 1e-9) << event.id;
        EXPECT_NEAR(event.duration_deg, figure(study, "port." + event.id + ".duration").value_or(-1), 1e-9) << event.id;
      }
    }
  }
}

TEST(bore, an_edge_is_passed_when_the_crown_edge_lies_on_it) {
  const wire::BoreAnswer answer = bore_of(sample("spruce-92"));
  for (const wire::BoreWindow& window : answer.windows) {
    ASSERT_TRUE(window.roof.at_deg) << window.id;
    const auto before = static_cast<std::size_t>(*window.roof.at_deg);
    EXPECT_LE(answer.drop_mm->at(before), window.roof.at_mm + 1e-9) << window.id;
    EXPECT_GE(answer.drop_mm->at(before + 1), window.roof.at_mm - 1e-9) << window.id;
    EXPECT_EQ(window.roof.act, "roof " + window.port);
    EXPECT_EQ(window.roof.raise_is, -1);
    EXPECT_TRUE(window.roof.timed);
  }
}

TEST(bore, a_cut_moves_its_edge_in_the_frame_and_stock_comes_down_with_the_cylinder) {
  const std::string file = sample("alder-60");
  const wire::BoreAnswer plain = bore_of(file), cut = bore_of(file, "base -0.3 mm; roof exhaust +0.8 mm");
  ASSERT_TRUE(cut.stock);
  EXPECT_NEAR(cut.stock->shift_mm, 0.3, 1e-9);
  for (const wire::BoreWindow& now : cut.windows) {
    const auto same = [&](const wire::BoreWindow& w) { return w.id == now.id; };
    const auto before = std::find_if(plain.windows.begin(), plain.windows.end(), same);
    const auto stock = std::find_if(cut.stock->windows.begin(), cut.stock->windows.end(), same);
    ASSERT_TRUE(before != plain.windows.end() && stock != cut.stock->windows.end());
    EXPECT_NEAR(stock->roof.at_mm, before->roof.at_mm + 0.3, 1e-9) << now.id;
    const bool worked = now.port == "exhaust";
    EXPECT_EQ(now.changed, worked) << now.id;
    EXPECT_EQ(now.cut, worked ? 2 : 0) << now.id;
    EXPECT_EQ(now.roof.moved, worked) << now.id;
    EXPECT_FALSE(now.floor.moved) << now.id;
    EXPECT_NEAR(now.roof.at_mm, stock->roof.at_mm - (worked ? 0.8 : 0.0), 1e-9) << now.id;
  }
  EXPECT_THAT(cut.sentence, HasSubstr("exhaust opens 1.9\u00B0 sooner"));
}

TEST(bore, a_skirt_cut_short_opens_the_exhaust_to_the_case_and_says_for_how_long) {
  const wire::BoreAnswer answer = bore_of(sample("alder-60"), "skirt exhaust -6 mm");
  const auto found = std::find_if(answer.events.begin(), answer.events.end(),
                                  [](const wire::BoreEvent& e) { return e.kind == "free_port"; });
  ASSERT_NE(found, answer.events.end());
  EXPECT_GT(found->opens_deg, 180.0);
  EXPECT_LT(found->closes_deg, 180.0);
  // The skirt covers the floor when the crown has dropped by what is missing.
  const auto exhaust = std::find_if(answer.windows.begin(), answer.windows.end(),
                                    [](const wire::BoreWindow& w) { return w.port == "exhaust"; });
  const double missing = exhaust->floor.at_mm - (37.0 - 6.0 + 0.0);
  const auto deg = static_cast<std::size_t>(found->closes_deg);
  EXPECT_TRUE(exhaust->free_port);
  EXPECT_GT(answer.drop_mm->at(deg + 1), std::max(0.0, missing));
  EXPECT_THAT(answer.sentence, HasSubstr("open to the case"));
  const wire::BoreAnswer whole = bore_of(sample("alder-60"));
  for (const wire::BoreEvent& event : whole.events) EXPECT_NE(event.kind, "free_port");
}

TEST(bore, what_is_unknown_is_left_out_and_says_what_it_waits_for) {
  const wire::BoreAnswer answer = bore_of(sample("willow-64"));
  EXPECT_THAT(answer.windows, IsEmpty());
  EXPECT_FALSE(answer.base_mm);
  EXPECT_FALSE(answer.piston.skirt_path);
  const std::string json = wire::to_json(answer);
  EXPECT_THAT(json, Not(HasSubstr("base_mm")));
  EXPECT_THAT(json, Not(HasSubstr("\"stock\"")));
  std::vector<std::string> named;
  for (const wire::Waiting& one : answer.waits) {
    EXPECT_FALSE(one.text.empty());
    named.insert(named.end(), one.waits_for.begin(), one.waits_for.end());
  }
  EXPECT_THAT(named, testing::IsSupersetOf({"cylinder.crown_at_tdc", "port.exhaust.floor"}));
}

TEST(bore, comes_back_through_the_reader_as_it_was) {
  const wire::BoreAnswer answer = bore_of(sample("alder-60"), "roof exhaust +0.5 mm");
  const std::string json = wire::to_json(answer);
  const auto again = wire::from_json<wire::BoreAnswer>(json);
  ASSERT_TRUE(again) << again.error().message;
  EXPECT_EQ(wire::to_json(*again), json);
}

TEST(opened, a_saw_kept_open_answers_as_one_opened_anew) {
  const std::string file = sample("alder-60");
  const auto saw = desk::open_saw(file);
  ASSERT_TRUE(saw);
  for (const char* cuts : {"", "base -0.3 mm; roof exhaust +0.8 mm", "gasket out; widen exhaust +1 mm"}) {
    const auto kept = desk::study(**saw, with(cuts));
    ASSERT_TRUE(kept);
    EXPECT_EQ(wire::to_json(*kept), wire::to_json(study_of(file, cuts))) << cuts;
    const auto bore = desk::bore(**saw, with(cuts));
    ASSERT_TRUE(bore);
    EXPECT_EQ(wire::to_json(*bore), wire::to_json(bore_of(file, cuts))) << cuts;
  }
  const auto bad = desk::bore(**saw, with("sand exhaust"));
  ASSERT_FALSE(bad);
  EXPECT_EQ(bad.error().front().path, "cuts.1");
}

}  // namespace
