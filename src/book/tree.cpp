#include "book/tree.hpp"

#include <algorithm>
#include <utility>

namespace portwright::book {
namespace {

using base::ErrorCode;

tl::unexpected<base::Error> wrong(std::string message) { return base::fail(ErrorCode::usage, std::move(message)); }

bool is_name(std::string_view name) {
  return !name.empty() && std::all_of(name.begin(), name.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_';
  });
}

auto place_of(const std::vector<Part>& parts, std::string_view name) {
  return std::lower_bound(parts.begin(), parts.end(), name,
                          [](const Part& part, std::string_view wanted) { return part.name < wanted; });
}

std::pair<std::string_view, std::string_view> first_name(std::string_view path) {
  const std::size_t dot = path.find('.');
  if (dot == std::string_view::npos) return {path, {}};
  return {path.substr(0, dot), path.substr(dot + 1)};
}

int depth(const Tree& tree) {
  int deepest = 0;
  for (const Part& part : tree.parts) deepest = std::max(deepest, depth(part.tree));
  return tree.kind == Tree::Kind::branch ? deepest + 1 : 0;
}

void print_text(std::string_view text, std::string& out) {
  static constexpr char digits[] = "0123456789abcdef";
  out += '"';
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      out += '\\';
      out += c;
    } else if (c == '\n') {
      out += "\\n";
    } else if (c == '\t') {
      out += "\\t";
    } else if (byte < 0x20) {
      out += "\\u00";
      out += digits[byte >> 4U];
      out += digits[byte & 0xfU];
    } else {
      out += c;
    }
  }
  out += '"';
}

void print_to(const Tree& tree, std::string& out) {
  switch (tree.kind) {
    case Tree::Kind::text:
      return print_text(tree.text, out);
    case Tree::Kind::flag:
      out += tree.flag ? "true" : "false";
      return;
    case Tree::Kind::list:
      out += '[';
      for (std::size_t i = 0; i < tree.list.size(); ++i) {
        if (i > 0) out += ',';
        print_text(tree.list[i], out);
      }
      out += ']';
      return;
    case Tree::Kind::branch:
      out += '{';
      for (std::size_t i = 0; i < tree.parts.size(); ++i) {
        if (i > 0) out += ',';
        print_text(tree.parts[i].name, out);
        out += ':';
        print_to(tree.parts[i].tree, out);
      }
      out += '}';
      return;
  }
}

// A name of kept bytes is no word that a person looks for.
bool names_bytes(const std::string& text) {
  return text.size() == 69 && text.starts_with("blob:") &&
         text.find_first_not_of("0123456789abcdef", 5) == std::string::npos;
}

void collect(const Tree& tree, std::string& out) {
  if (tree.kind == Tree::Kind::text && !tree.text.empty() && !names_bytes(tree.text)) out += tree.text + '\n';
  for (const std::string& one : tree.list)
    if (!one.empty()) out += one + '\n';
  for (const Part& part : tree.parts) collect(part.tree, out);
}

}  // namespace

bool Tree::empty_branch() const { return kind == Kind::branch && parts.empty(); }

bool operator==(const Tree& a, const Tree& b) {
  return a.kind == b.kind && a.text == b.text && a.list == b.list && a.flag == b.flag && a.parts == b.parts;
}

bool operator==(const Part& a, const Part& b) { return a.name == b.name && a.tree == b.tree; }

std::string print(const Tree& tree) {
  std::string out;
  print_to(tree, out);
  return out;
}

bool is_path(std::string_view path) {
  int names = 0;
  for (;;) {
    const std::size_t dot = path.find('.');
    if (!is_name(path.substr(0, dot)) || ++names > deepest_tree) return false;
    if (dot == std::string_view::npos) return true;
    path.remove_prefix(dot + 1);
  }
}

bool overlap(std::string_view one, std::string_view other) {
  if (one.size() > other.size()) std::swap(one, other);
  if (one.empty() || one.starts_with('#') || other.starts_with('#')) return true;
  return other.starts_with(one) && (other.size() == one.size() || other[one.size()] == '.');
}

const Tree* find(const Tree& tree, std::string_view path) {
  const Tree* at = &tree;
  while (!path.empty()) {
    const auto [name, rest] = first_name(path);
    const auto part = place_of(at->parts, name);
    if (part == at->parts.end() || part->name != name) return nullptr;
    at = &part->tree;
    path = rest;
  }
  return at;
}

base::Result<void> set(Tree& tree, std::string_view path, Tree value) {
  if (value.empty_branch()) {
    remove(tree, path);
    return {};
  }
  const auto names = std::count(path.begin(), path.end(), '.') + 1;
  if (names + depth(value) > deepest_tree) return wrong("\u201C" + std::string(path) + "\u201D lies too deep");
  const Tree* above = &tree;
  for (std::string_view rest = path; above != nullptr && !rest.empty();) {
    if (above->kind != Tree::Kind::branch)
      return wrong("\u201C" + std::string(path) + "\u201D cannot be set: what is above it is a value, not a branch");
    const auto [name, left] = first_name(rest);
    above = find(*above, name);
    rest = left;
  }
  Tree* at = &tree;
  for (std::string_view rest = path; !rest.empty();) {
    const auto [name, left] = first_name(rest);
    const auto place = place_of(at->parts, name) - at->parts.begin();
    auto part = at->parts.begin() + place;
    if (part == at->parts.end() || part->name != name) part = at->parts.insert(part, Part{std::string(name), {}});
    at = &part->tree;
    rest = left;
  }
  *at = std::move(value);
  return {};
}

void remove(Tree& tree, std::string_view path) {
  const auto [name, rest] = first_name(path);
  const auto part = tree.parts.begin() + (place_of(tree.parts, name) - tree.parts.begin());
  if (part == tree.parts.end() || part->name != name) return;
  if (!rest.empty()) remove(part->tree, rest);
  if (rest.empty() || part->tree.empty_branch()) tree.parts.erase(part);
}

std::string texts(const Tree& tree) {
  std::string out;
  collect(tree, out);
  return out;
}

}  // namespace portwright::book
