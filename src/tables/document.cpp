#include "tables/document.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "base/quantity/text.hpp"

#define TOML_ASSERT(expression) \
  (static_cast<bool>(expression) ? static_cast<void>(0) : throw std::logic_error("toml: " #expression))
#define TOML_EXCEPTIONS 1
#define TOML_HEADER_ONLY 1
#include <toml++/toml.h>

namespace portwright::tables {
namespace {

using Dimension = base::Dimension;

constexpr std::pair<const char*, Dimension> kinds[] = {{"length", Dimension::length},
                                                       {"area", Dimension::area},
                                                       {"volume", Dimension::volume},
                                                       {"angle", Dimension::angle},
                                                       {"mass", Dimension::mass},
                                                       {"pressure", Dimension::pressure},
                                                       {"force", Dimension::force},
                                                       {"power", Dimension::power},
                                                       {"speed", Dimension::speed},
                                                       {"velocity", Dimension::velocity},
                                                       {"temperature", Dimension::temperature},
                                                       {"share", Dimension::share},
                                                       {"count", Dimension::count}};

[[noreturn]] void refuse(const std::string& where, const std::string& why) {
  throw std::logic_error(where + ": " + why);
}

Row::Value list(const toml::array& array, const std::string& where) {
  std::vector<std::string> texts;
  std::vector<double> numbers;
  for (const toml::node& node : array) {
    if (node.is_string())
      texts.push_back(node.as_string()->get());
    else if (const auto number = node.value<double>())
      numbers.push_back(*number);
    else
      refuse(where, "a list of something else than texts or numbers");
  }
  if (!texts.empty() && !numbers.empty()) refuse(where, "a list of texts and numbers");
  if (!numbers.empty()) return numbers;
  return texts;
}

Row::Value value(const toml::node& node, const std::string& where) {
  if (const auto* text = node.as_string()) return text->get();
  if (const auto* flag = node.as_boolean()) return flag->get();
  if (const auto* array = node.as_array()) return list(*array, where);
  if (node.is_number()) return node.value<double>().value();
  refuse(where, "a value that no table has");
}

Row row(const toml::table& table, const std::string& where) {
  std::map<std::string, Row::Value> values;
  for (const auto& [key, node] : table) values.emplace(key.str(), value(node, where + " " + std::string(key.str())));
  return Row(where, std::move(values));
}

}  // namespace

std::vector<Row> rows_of(std::string_view text, std::string_view file, std::string_view name,
                         const std::vector<std::string>& names) {
  const std::string where(file);
  try {
    const toml::table root = toml::parse(text, file);
    for (const auto& [key, node] : root)
      if (std::find(names.begin(), names.end(), key.str()) == names.end())
        refuse(where, "unknown key " + std::string(key.str()));
    const toml::array* array = root[name].as_array();
    if (array == nullptr || array->empty()) refuse(where, "no rows [[" + std::string(name) + "]]");
    std::vector<Row> result;
    for (const toml::node& node : *array) {
      const std::string at = where + " " + std::string(name) + " " + std::to_string(result.size() + 1);
      if (!node.is_table()) refuse(at, "is no table");
      result.push_back(row(*node.as_table(), at));
    }
    return result;
  } catch (const toml::parse_error& error) {
    refuse(where, std::string(error.description()) + " at line " + std::to_string(error.source().begin.line));
  }
}

std::vector<Row> rows(std::string_view file, std::string_view name, const std::vector<std::string>& names) {
  return rows_of(embedded(file), file, name, names);
}

std::string plain_word(std::string_view text) {
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
  std::string out(text);
  for (char& c : out)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return out;
}

void Row::broken(const std::string& why) const { refuse(where_, why); }

const Row::Value* Row::find(const std::string& key) const {
  asked_.insert(key);
  const auto at = values_.find(key);
  return at == values_.end() ? nullptr : &at->second;
}

std::string Row::text(const std::string& key) const {
  const Value* found = find(key);
  const auto* text = found == nullptr ? nullptr : std::get_if<std::string>(found);
  if (text == nullptr || text->empty()) broken(key + " must be a text");
  return *text;
}

std::string Row::text_or(const std::string& key, std::string other) const {
  return find(key) == nullptr ? other : text(key);
}

double Row::number(const std::string& key) const {
  const Value* found = find(key);
  const auto* number = found == nullptr ? nullptr : std::get_if<double>(found);
  if (number == nullptr || !std::isfinite(*number)) broken(key + " must be a number");
  return *number;
}

std::optional<double> Row::optional_number(const std::string& key) const {
  if (find(key) == nullptr) return std::nullopt;
  return number(key);
}

bool Row::flag_or(const std::string& key, bool other) const {
  const Value* found = find(key);
  if (found == nullptr) return other;
  const auto* flag = std::get_if<bool>(found);
  if (flag == nullptr) broken(key + " must be true or false");
  return *flag;
}

std::vector<std::string> Row::texts(const std::string& key) const {
  const Value* found = find(key);
  if (found == nullptr) return {};
  const auto* list = std::get_if<std::vector<std::string>>(found);
  if (list == nullptr) broken(key + " must be a list of texts");
  return *list;
}

std::vector<double> Row::numbers(const std::string& key) const {
  const Value* found = find(key);
  if (found == nullptr) return {};
  const auto* list = std::get_if<std::vector<double>>(found);
  if (list == nullptr) broken(key + " must be a list of numbers");
  return *list;
}

std::optional<std::pair<double, double>> Row::optional_pair(const std::string& key) const {
  const Value* found = find(key);
  if (found == nullptr) return std::nullopt;
  const auto* list = std::get_if<std::vector<double>>(found);
  if (list == nullptr || list->size() != 2 || !((*list)[0] < (*list)[1])) broken(key + " must be two rising numbers");
  return std::pair{(*list)[0], (*list)[1]};
}

double Row::quantity(const std::string& key, Dimension dimension) const {
  const std::string typed = text(key);
  const base::Result<base::Quantity> read = base::parse_quantity(typed, dimension, key);
  if (!read) broken(key + ": " + read.error().message);
  return read->si;
}

std::string Row::word(const std::string& key, const std::vector<std::string>& words) const {
  const std::string found = text(key);
  if (std::find(words.begin(), words.end(), found) == words.end())
    broken(key + " is " + found + ", which is no word of it");
  return found;
}

Dimension Row::dimension(const std::string& key) const {
  const std::string found = text(key);
  for (const auto& [name, dimension] : kinds)
    if (found == name) return dimension;
  broken(key + " is " + found + ", which is no kind of quantity");
}

void Row::done() const {
  for (const auto& [key, value] : values_)
    if (!asked_.contains(key)) broken("unknown key " + key);
}

}  // namespace portwright::tables
