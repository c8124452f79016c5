// Every field of the saw file at once: three transfer pairs, a boost port, air windows, and the pin along or across.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <iterator>
#include <map>

#include "geometry/survey.hpp"
#include "saw/file.hpp"
#include "saw/walk.hpp"
#include "study/study.hpp"

namespace portwright {
namespace {

std::string whole_saw() {
  std::ifstream in(PORTWRIGHT_SOURCE_DIR "/tests/identity/whole.saw.toml");
  return {std::istreambuf_iterator<char>(in), {}};
}

saw::Readings read(const std::string& text) {
  const auto file = saw::read_saw(text);
  EXPECT_TRUE(file) << (file ? "" : file.error().front().message + " " + file.error().front().path);
  if (!file) return {};
  for (const base::Error& error : file->errors) ADD_FAILURE() << error.path << ": " << error.message;
  return file->readings;
}

study::Study study_of(const geometry::Survey& survey) {
  study::Options options;
  options.samples = 64;
  return study::study(survey, {}, nullptr, options);
}

const study::Figure* find(const study::Study& study, const std::string& id) {
  for (const study::Figure& figure : study.figures)
    if (figure.id == id) return &figure;
  return nullptr;
}

TEST(whole_saw, has_every_field_of_the_file) {
  // Fields that exclude each other, or that one port has and another does not, are taken somewhere among the ports.
  std::map<std::string, bool> taken;
  const saw::Readings readings = read(whole_saw());
  saw::for_each_field(readings, [&](const saw::FieldAt& field) {
    std::string path = field.path;
    if (path.starts_with("port.")) path = "port" + path.substr(path.find('.', 5));
    taken[path] = taken[path] || field.taken;
  });
  for (const auto& [path, is_taken] : taken) EXPECT_TRUE(is_taken) << path;
  EXPECT_GT(taken.size(), 130U);
}

TEST(whole_saw, is_studied_without_an_error_and_leaves_no_figure_waiting) {
  const geometry::Survey survey = geometry::survey(read(whole_saw()));
  for (const base::Error& error : survey.errors) ADD_FAILURE() << error.path << ": " << error.message;
  const study::Study study = study_of(survey);
  for (const study::Figure& figure : study.figures)
    EXPECT_TRUE(figure.value) << figure.id << " waits for " << (figure.waits_for.empty() ? "" : figure.waits_for.front());
}

TEST(whole_saw, three_pairs_and_a_boost_port_are_counted_together) {
  const geometry::Survey survey = geometry::survey(read(whole_saw()));
  const study::Study study = study_of(survey);
  double sum = 0.0;
  for (const char* name : {"primary", "secondary", "third"}) {
    const study::Figure* area = find(study, std::string("port.") + name + ".area");
    ASSERT_NE(area, nullptr) << name;
    EXPECT_EQ(area->count, 2) << name;
    sum += 2.0 * *area->value;
  }
  EXPECT_NEAR(*find(study, "group.transfer.area")->value, sum, 1e-9 * sum);
  EXPECT_NE(find(study, "group.boost.area"), nullptr);
}

TEST(whole_saw, the_pin_either_way_presses_other_walls) {
  const std::string along = whole_saw();
  std::string across = along;
  const auto swap = [&](const std::string& from, const std::string& to) {
    ASSERT_NE(across.find(from), std::string::npos) << from;
    across.replace(across.find(from), from.size(), to);
  };
  swap("pin_axis = \"90 deg\"", "pin_axis = \"0 deg\"");
  swap("thrust = \"180 deg\"", "thrust = \"-90 deg\"");
  const auto share = [](const std::string& text) {
    const geometry::Survey survey = geometry::survey(read(text));
    EXPECT_TRUE(survey.errors.empty());
    const study::Study study = study_of(survey);
    return *find(study, "wall.thrust_share")->value;
  };
  EXPECT_NE(share(along), share(across));
}

}  // namespace
}  // namespace portwright
