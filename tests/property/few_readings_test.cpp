// The law of few readings: whatever is missing, every figure is there or names what it waits for.
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <random>

#include "saw/fields.hpp"
#include "saw/file.hpp"
#include "study/study.hpp"

namespace portwright {
namespace {

/// Deletes fields at random, all but names and the kinds of ports.
class Thin {
 public:
  Thin(std::mt19937& random, double share) : random_(random), share_(share) {}
  void reading(const char*, saw::Reading& r, base::Dimension) { drop(r); }
  void turn(const char*, saw::Reading& r) { drop(r); }
  void places(const char*, saw::Places& p, base::Dimension) { drop(p); }
  void several(const char*, saw::Several& s, base::Dimension) { drop(s); }
  void pairs(const char*, saw::Pairs& p, base::Dimension, base::Dimension) { drop(p); }
  void number(const char*, saw::Number& n) { drop(n); }
  void flag(const char*, saw::Flag& f) { drop(f); }
  void words(const char* key, std::string& s) {
    if (key != std::string("name")) drop(s);
  }
  void word(const char*, std::string& s, saw::Words) {
    if (!in_port_) drop(s);
  }
  void octane(const char*, saw::Octane& o) { drop(o); }
  void power_at(const char*, saw::PowerAt& p) { drop(p); }
  template <class T>
  void table(const char*, T& t) {
    fields(t, *this);
  }
  template <class T>
  void tables(const char*, std::vector<T>& all) {
    in_port_ = std::is_same_v<T, saw::Port>;
    for (T& one : all) fields(one, *this);
    in_port_ = false;
  }

 private:
  template <class T>
  void drop(T& field) {
    if (std::uniform_real_distribution<>(0.0, 1.0)(random_) < share_) field = T{};
  }
  std::mt19937& random_;
  double share_;
  bool in_port_ = false;
};

std::vector<saw::Readings> samples() {
  std::vector<saw::Readings> all;
  for (const auto& entry : std::filesystem::directory_iterator(PORTWRIGHT_SOURCE_DIR "/data/samples"))
    if (entry.path().extension() == ".toml") all.push_back(saw::read_saw_file(entry.path().string()).value().readings);
  return all;
}

study::Options samples_of(int count) {
  study::Options options;
  options.samples = count;
  return options;
}

void hold(const study::Study& study, const std::string& what) {
  for (const study::Figure& figure : study.figures) {
    ASSERT_NE(figure.value.has_value(), !figure.waits_for.empty()) << what << figure.id;
    for (const auto& number : {figure.value, figure.low, figure.high}) {
      ASSERT_TRUE(!number || std::isfinite(*number)) << what << figure.id;
    }
    ASSERT_TRUE(!figure.low || *figure.low <= *figure.high) << what << figure.id;
  }
}

TEST(few_readings, every_figure_is_there_or_names_what_it_waits_for) {
  const std::vector<saw::Readings> all = samples();
  ASSERT_GE(all.size(), 8u);
  std::mt19937 random(20);
  for (int trial = 0; trial < 400; ++trial) {
    saw::Readings readings = all[static_cast<std::size_t>(trial) % all.size()];
    const double share = 0.05 + 0.9 * (trial % 17) / 16.0;
    Thin thin(random, share);
    fields(readings, thin);
    const geometry::Survey survey = geometry::survey(readings);
    hold(study::study(survey, {}, nullptr, samples_of(16)), readings.name + " trial " + std::to_string(trial) + ": ");
  }
}

TEST(few_readings, a_field_or_three_gone_leave_no_figure_without_a_word) {
  const saw::Readings full = saw::read_saw_file(PORTWRIGHT_SOURCE_DIR "/data/samples/larch-70.saw.toml").value().readings;
  std::mt19937 random(3);
  for (int trial = 0; trial < 120; ++trial) {
    saw::Readings readings = full;
    Thin thin(random, 0.02);
    fields(readings, thin);
    hold(study::study(geometry::survey(readings), {}, nullptr, samples_of(16)), "trial " + std::to_string(trial) + ": ");
  }
}

TEST(few_readings, more_ports_rings_and_windows_than_an_engine_has_room_for_are_named) {
  saw::Readings readings = saw::read_saw_file(PORTWRIGHT_SOURCE_DIR "/data/samples/larch-70.saw.toml").value().readings;
  for (int i = 0; i < 24; ++i) {
    saw::Port port = readings.ports[1];
    port.name = "extra" + std::to_string(i);
    readings.ports.push_back(port);
    readings.piston.ring.push_back(readings.piston.ring.front());
    readings.piston.window.push_back({});
  }
  const geometry::Survey survey = geometry::survey(readings);
  EXPECT_FALSE(survey.errors.empty());
  hold(study::study(survey, {}, nullptr, samples_of(8)), "");
}

}  // namespace
}  // namespace portwright
