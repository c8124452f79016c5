#include "tables/demo.hpp"

#include "tables/document.hpp"

namespace portwright::tables {
namespace {

const std::vector<std::string> row_kinds = {"saw", "deed"};
const std::vector<std::string> acts = {"note", "wood", "failure", "plan", "done", "accept", "borrow", "set"};
constexpr const char* words[] = {"text",    "date",   "wood",  "bar",   "chain", "times", "rpm",
                                 "gauge",   "felt",   "title", "cuts",  "where", "cause", "seen",
                                 "finding", "reason", "name",  "field", "value", "with",  "again"};

}  // namespace

std::vector<DemoSaw> demo_saws() {
  std::vector<DemoSaw> out;
  for (const Row& row : rows("demo/workshop.toml", "saw", row_kinds)) {
    const std::string file = row.text("file");
    const std::string_view text = embedded("samples/" + file);
    if (text.empty()) row.broken(file + " is no sample");
    row.done();
    out.push_back({file, text});
  }
  return out;
}

std::vector<DemoDeed> demo_deeds() {
  std::vector<DemoDeed> out;
  for (const Row& row : rows("demo/workshop.toml", "deed", row_kinds)) {
    DemoDeed deed{row.text("saw"), row.word("do", acts), {}};
    for (const char* word : words)
      if (row.has(word)) deed.words[word] = row.text(word);
    row.done();
    out.push_back(std::move(deed));
  }
  return out;
}

}  // namespace portwright::tables
