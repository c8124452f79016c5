#include "saw/tree.hpp"

#include <algorithm>
#include <optional>
#include <stdexcept>
#include <tuple>

#include "saw/ascii_form.hpp"
#include "saw/text_guard.hpp"

#define TOML_ASSERT(expression) \
  (static_cast<bool>(expression) ? static_cast<void>(0) : throw std::logic_error("toml: " #expression))
#define TOML_EXCEPTIONS 1
#define TOML_HEADER_ONLY 1
#include <toml++/toml.h>

namespace portwright::saw {
namespace {

using Place = std::pair<std::size_t, std::size_t>;  // line, column; from 1

struct TooDeep : std::runtime_error {
  explicit TooDeep(std::size_t at) : std::runtime_error("too deep"), line(at) {}
  std::size_t line;
};

class Converter {
 public:
  Converter(std::string_view text, char mark) : text_(text), mark_(mark) {
    starts_.push_back(0);
    for (std::size_t i = 0; i < text.size(); ++i)
      if (text[i] == '\n') starts_.push_back(i + 1);
  }

  Node node(const toml::node& from, int depth) const {
    if (depth > depth_cap) throw TooDeep(from.source().begin.line);
    Node out;
    out.line = from.source().begin.line;
    if (const auto* table = from.as_table())
      fill(out, *table, depth);
    else if (const auto* list = from.as_array())
      fill(out, *list, depth);
    else
      leaf(out, from);
    return out;
  }

 private:
  void fill(Node& out, const toml::table& from, int depth) const {
    out.kind = Node::Kind::table;
    std::vector<std::tuple<Place, std::string, const toml::node*>> sorted;
    for (const auto& [key, child] : from) {
      const toml::source_position at = key.source().begin;
      sorted.emplace_back(Place{at.line, at.column}, from_ascii(key.str(), mark_), &child);
    }
    std::stable_sort(sorted.begin(), sorted.end(),
                     [](const auto& a, const auto& b) { return std::get<0>(a) < std::get<0>(b); });
    for (const auto& [place, key, child] : sorted) {
      out.keys.push_back(key);
      out.items.push_back(node(*child, depth + 1));
    }
    out.text = slice(from.source());
  }

  void fill(Node& out, const toml::array& from, int depth) const {
    out.kind = Node::Kind::list;
    for (const toml::node& child : from) out.items.push_back(node(child, depth + 1));
    out.text = slice(from.source());
  }

  void leaf(Node& out, const toml::node& from) const {
    out.text = slice(from.source());
    if (const auto* text = from.as_string()) {
      out.kind = Node::Kind::text;
      out.text = from_ascii(text->get(), mark_);
    } else if (const auto* flag = from.as_boolean()) {
      out.kind = Node::Kind::flag;
      out.flag = flag->get();
    } else if (const auto number = from.value<double>(); number && from.is_number()) {
      out.kind = Node::Kind::number;
      out.number = *number;
    } else {
      out.kind = Node::Kind::moment;
    }
  }

  std::size_t offset(const toml::source_position& place) const {
    if (place.line == 0 || place.line > starts_.size()) return text_.size();
    return std::min(starts_[place.line - 1] + std::max<std::size_t>(place.column, 1) - 1, text_.size());
  }

  std::string slice(const toml::source_region& region) const {
    const std::size_t begin = offset(region.begin), end = offset(region.end);
    std::string_view part = begin < end ? text_.substr(begin, end - begin) : std::string_view{};
    while (!part.empty() && (part.back() == ' ' || part.back() == '\n' || part.back() == '\r' || part.back() == '\t'))
      part.remove_suffix(1);
    return from_ascii(part, mark_);
  }

  std::string_view text_;  // in ASCII, so that columns are bytes
  char mark_;
  std::vector<std::size_t> starts_;
};

std::string at_line(std::size_t line) { return "line " + std::to_string(line) + ": "; }

base::Error refusal(std::string message, std::string hint = {}) {
  return {base::ErrorCode::not_a_saw_file, std::move(message), {}, std::move(hint), {}};
}

}  // namespace

base::Result<Node> parse_tree(std::string_view text) {
  if (auto error = guard_text(text)) return tl::unexpected<base::Error>(std::move(*error));
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  const std::optional<AsciiForm> plain = to_ascii(text);
  if (!plain)
    return tl::unexpected<base::Error>(refusal("the file writes plain characters as \\u escapes", "type them"));
  try {
    const toml::table root = toml::parse(plain->text);
    return Converter(plain->text, plain->mark).node(root, 0);
  } catch (const toml::parse_error& error) {
    return tl::unexpected<base::Error>(
        refusal(at_line(error.source().begin.line) + from_ascii(error.description(), plain->mark),
                "a saw file is TOML: key = \"value\""));
  } catch (const TooDeep& deep) {
    return tl::unexpected<base::Error>(refusal(at_line(deep.line) + "nests deeper than " + std::to_string(depth_cap)));
  } catch (const std::logic_error&) {  // the parser's own assertion
    return tl::unexpected<base::Error>(refusal("the file is not TOML"));
  }
}

}  // namespace portwright::saw
