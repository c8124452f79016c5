#include "architecture/layers.hpp"

#include <algorithm>
#include <regex>
#include <sstream>

namespace architecture {
namespace {

std::string module_of(const std::string& path) {
  const auto slash = path.find('/');
  return slash == std::string::npos ? std::string() : path.substr(0, slash);
}

const Row* find_row(const std::vector<Row>& rows, const std::string& module) {
  const auto row = std::find_if(rows.begin(), rows.end(), [&](const Row& r) { return r.module == module; });
  return row == rows.end() ? nullptr : &*row;
}

bool lists(const Row& row, const std::string& module) {
  return std::find(row.may_include.begin(), row.may_include.end(), module) != row.may_include.end();
}

std::string place(const SourceFile& file, const Include& include) {
  return file.path + ":" + std::to_string(include.line) + ": ";
}

/// What is wrong with one include of `file`, or nothing.
std::string include_fault(const std::vector<Row>& rows, const Row& own, const SourceFile& file,
                          const Include& include) {
  const std::string target = module_of(include.path);
  if (target.empty() || include.path.front() == '.') {
    const std::string extension = include.path.size() > 4 ? include.path.substr(include.path.size() - 4) : "";
    return extension == ".hpp" ? place(file, include) + "\"" + include.path + "\" is not written from src/" : "";
  }
  if (target == own.module || find_row(rows, target) == nullptr || lists(own, target)) return "";
  return place(file, include) + own.module + " may not include " + target;
}

}  // namespace

std::vector<Row> parse_layers(std::string_view text) {
  std::vector<Row> rows;
  std::istringstream lines{std::string(text)};
  for (std::string line; std::getline(lines, line);) {
    line = line.substr(0, line.find('#'));
    const auto colon = line.find(':');
    if (colon == std::string::npos) continue;
    Row row;
    std::istringstream(line.substr(0, colon)) >> row.module;
    std::istringstream words(line.substr(colon + 1));
    for (std::string word; words >> word;) row.may_include.push_back(word);
    rows.push_back(row);
  }
  return rows;
}

std::vector<Include> includes_of(std::string_view text) {
  static const std::regex pattern(R"(^\s*#\s*include\s*[<"]([^>"]+)[>"])");
  std::vector<Include> includes;
  std::istringstream lines{std::string(text)};
  int number = 0;
  for (std::string line; std::getline(lines, line);) {
    ++number;
    std::smatch match;
    if (std::regex_search(line, match, pattern)) includes.push_back({match[1].str(), number});
  }
  return includes;
}

std::vector<std::string> table_faults(const std::vector<Row>& rows) {
  std::vector<std::string> faults;
  std::set<std::string> below;
  for (const Row& row : rows) {
    for (const std::string& target : row.may_include)
      if (below.count(target) == 0)
        faults.push_back("layers: " + row.module + " lists " + target + ", which is not nearer the ground");
    if (!below.insert(row.module).second) faults.push_back("layers: " + row.module + " has two rows");
  }
  return faults;
}

std::vector<std::string> include_faults(const std::vector<Row>& rows, const std::vector<SourceFile>& files) {
  std::vector<std::string> faults;
  std::set<std::string> with_files;
  std::set<std::string> homeless;
  for (const SourceFile& file : files) {
    const std::string module = module_of(file.path);
    const Row* own = find_row(rows, module);
    if (own == nullptr) {
      if (homeless.insert(module).second) faults.push_back("folder " + module + "/ has no row");
      continue;
    }
    with_files.insert(module);
    for (const Include& include : includes_of(file.text)) {
      std::string fault = include_fault(rows, *own, file, include);
      if (!fault.empty()) faults.push_back(std::move(fault));
    }
  }
  for (const Row& row : rows)
    if (with_files.count(row.module) == 0) faults.push_back("row " + row.module + " has no files");
  return faults;
}

std::vector<std::string> heavy_faults(const std::vector<HeavyLibrary>& libraries,
                                      const std::vector<SourceFile>& files) {
  std::vector<std::string> faults;
  std::map<std::string, std::string> first_user;  // "library module" -> path
  for (const SourceFile& file : files) {
    for (const Include& include : includes_of(file.text)) {
      const auto library = std::find_if(libraries.begin(), libraries.end(),
                                        [&](const HeavyLibrary& l) { return include.path.rfind(l.header, 0) == 0; });
      if (library == libraries.end()) continue;
      const std::string module = module_of(file.path);
      const std::string what = place(file, include) + "<" + include.path + "> ";
      if (!file.path.ends_with(".cpp")) faults.push_back(what + "stands in a header");
      if (library->modules.count(module) == 0) faults.push_back(what + "is not a library of " + module);
      const auto [user, is_first] = first_user.emplace(library->header + " " + module, file.path);
      if (!is_first && user->second != file.path) faults.push_back(what + "is already in " + user->second);
    }
  }
  return faults;
}

}  // namespace architecture
