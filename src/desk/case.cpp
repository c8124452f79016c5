#include "desk/case.hpp"

#include <algorithm>
#include <filesystem>
#include <iostream>
#include <iterator>

#include "desk/book/source.hpp"

namespace portwright::desk {
namespace {

// One byte over what a saw file may have is enough for the reader to refuse it.
constexpr std::size_t longest_input = 64 * 1024 + 1;

std::string read_standard_input() {
  std::string text(longest_input, '\0');
  std::cin.read(text.data(), static_cast<std::streamsize>(text.size()));
  text.resize(static_cast<std::size_t>(std::cin.gcount()));
  return text;
}

base::ResultAll<BookSource> read(const std::string& file, const std::string& book) {
  if (is_of_book(file)) return read_from_book(file, book);
  auto taken = file == "-" ? saw::read_saw(read_standard_input()) : saw::read_saw_file(file);
  if (!taken) return tl::unexpected(taken.error());
  return BookSource{std::move(*taken), {}};
}

// Both the reader and the survey may find the same fault.
void add_new(base::Errors& errors, const base::Errors& more) {
  for (const base::Error& error : more) {
    const auto same = [&](const base::Error& known) { return known.path == error.path && known.code == error.code; };
    if (std::none_of(errors.begin(), errors.end(), same) || error.path.empty()) errors.push_back(error);
  }
}

bool is_there(const base::Errors& errors, const base::Error& error) {
  return std::find(errors.begin(), errors.end(), error) != errors.end();
}

wire::Saw echo(const saw::Readings& readings) {
  wire::Saw saw{readings.format, readings.name, readings.model, readings.casting, readings.state, readings.aim.use, {}};
  for (const saw::Port& port : readings.ports)
    saw.ports.push_back({port.name, port.kind, port.mirrored.value_or(false) ? 2 : 1});
  return saw;
}

}  // namespace

std::string folder_of(const std::string& file) {
  const std::string folder = file == "-" || is_of_book(file) ? "" : std::filesystem::path(file).parent_path().string();
  return folder.empty() ? "." : folder;
}

base::Errors broken_by(const Case& opened, const cuts::Prepared& prepared) {
  geometry::Engine engine = geometry::resolve(opened.survey);
  const base::Errors before = geometry::impossibilities(opened.survey, engine);
  cuts::apply(prepared, engine);
  base::Errors broken;
  for (base::Error error : geometry::impossibilities(opened.survey, engine)) {
    if (is_there(before, error)) continue;
    error.message = "After the cuts: " + error.message;
    broken.push_back(std::move(error));
  }
  return broken;
}

base::ResultAll<Case> with_cuts(Case opened, const std::string& file, const std::string& cuts_text) {
  if (cuts_text.find_first_not_of(" \t\n;") == std::string::npos) return opened;
  auto list = cuts::parse_cuts(cuts_text);
  if (!list) return tl::unexpected(list.error());
  auto prepared = cuts::prepare(*list, opened.survey, folder_of(file));
  if (!prepared) return tl::unexpected(prepared.error());
  opened.cut_list = std::move(*list);
  opened.prepared = std::move(*prepared);
  for (const cuts::Cut& cut : opened.cut_list) opened.head.cuts.push_back(cuts::cut_text(cut));
  if (base::Errors broken = broken_by(opened, *opened.prepared); !broken.empty())
    return tl::unexpected(std::move(broken));
  return opened;
}

base::ResultAll<Case> open_case(const std::string& file, const std::string& cuts_text, const std::string& book) {
  auto source = read(file, book);
  if (!source) return tl::unexpected(source.error());
  Case opened;
  opened.accepted = std::move(source->accepted);
  opened.readings = std::move(source->read.readings);
  opened.survey = geometry::survey(opened.readings);
  add_new(opened.errors, source->read.errors);
  add_new(opened.errors, opened.survey.errors);
  add_new(opened.errors, geometry::impossibilities(opened.survey, geometry::resolve(opened.survey)));
  opened.head.saw = echo(opened.readings);
  opened.head.errors = opened.errors;
  return with_cuts(std::move(opened), file, cuts_text);
}

base::ResultAll<Case> open_sound_case(const std::string& file, const std::string& cuts_text, const std::string& book) {
  auto opened = open_case(file, cuts_text, book);
  if (opened && !opened->errors.empty()) return tl::unexpected(opened->errors);
  return opened;
}

study::Options study_options(std::optional<double> rpm, base::UnitStyle style) {
  study::Options options;
  if (rpm) options.speed = *rpm / 60.0;
  options.style = style;
  return options;
}

}  // namespace portwright::desk
