// What a slider on the page waits for, without browser and socket: bench_page_speed [moves]. A cut is moved a little
// each time, as a hand does; the drawing of the bore, the study, and the first five points of a new curve with
// stock turned beforehand. Median and 95 of 100, in milliseconds.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <functional>
#include <string>
#include <vector>

#include "desk/curve.hpp"
#include "desk/page.hpp"
#include "support/saws.hpp"

namespace {

using namespace portwright;
using Clock = std::chrono::steady_clock;

std::string cuts_of(int move) {
  char text[96];
  std::snprintf(text, sizeof text, "base -%.2f mm; roof exhaust +%.2f mm; widen exhaust +0.5 mm",
                0.2 + 0.01 * (move % 30), 0.3 + 0.01 * (move % 50));
  return text;
}

double milliseconds(const std::function<void()>& what) {
  const auto from = Clock::now();
  what();
  return std::chrono::duration<double, std::milli>(Clock::now() - from).count();
}

void report(const char* what, std::vector<double> times) {
  std::sort(times.begin(), times.end());
  std::printf(" %s %.0f / %.0f |", what, times[times.size() / 2], times[(times.size() * 95) / 100]);
}

/// Time until five speeds have an answer [ms].
double five_points(const std::string& file, int move, desk::CurveMemory& memory) {
  desk::CurveRequest request;
  request.file = file;
  request.cuts = cuts_of(move);
  request.speeds = "4500:12000:500";
  request.settle = false;
  const auto from = Clock::now();
  double until = 0.0;
  const auto found = desk::curve(
      request,
      [&](const wire::CurveAnswer& part) {
        if (part.points.size() >= 5 && until == 0.0)
          until = std::chrono::duration<double, std::milli>(Clock::now() - from).count();
        return until > 0.0;
      },
      &memory);
  return until;
}

void measure(const char* name, int moves) {
  const std::string file = bench::sample(name);
  const auto opened = desk::open_saw(file);
  if (!opened) return;
  std::printf("| %s |", name);
  std::vector<double> bore, study, five;
  desk::CurveMemory memory;
  desk::CurveRequest stock;
  stock.file = file;
  stock.speeds = "4500:12000:500";
  stock.settle = false;
  static_cast<void>(desk::curve(stock, {}, &memory));
  for (int m = 0; m < moves; ++m) {
    desk::WhatIf what_if;
    what_if.cuts = cuts_of(m);
    bore.push_back(milliseconds([&] { static_cast<void>(desk::bore(**opened, what_if)); }));
    study.push_back(milliseconds([&] { static_cast<void>(desk::study(**opened, what_if)); }));
  }
  for (int m = 0; m < std::max(10, moves / 10); ++m) five.push_back(five_points(file, m, memory));
  report("bore", bore);
  report("study", study);
  report("first five points", five);
  std::printf("\n");
  std::fflush(stdout);
}

}  // namespace

int main(int count, char** words) {
  const int moves = count > 1 ? std::atoi(words[1]) : 100;
  for (const char* name : {"alder-60", "oak-110", "spruce-92"}) measure(name, moves);
  return 0;
}
