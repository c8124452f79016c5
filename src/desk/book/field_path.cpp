#include "desk/book/field_path.hpp"

#include <algorithm>
#include <charconv>
#include <optional>

#include "desk/book/saw_tree.hpp"
#include "desk/nearest.hpp"
#include "saw/fields.hpp"
#include "saw/walk.hpp"

namespace portwright::desk {
namespace {

using book::Tree;

enum class Shape { field, place_field, table, ports, items };

struct Known {
  std::string path;  // without names and numbers: "port.opens"
  Shape shape;
  FieldKind kind = FieldKind::words;
};

// Every key of a saw, by its path without names and numbers.
struct KeyWalk {
  std::string place;
  std::vector<Known>& out;

  void add(const char* key, Shape shape, FieldKind kind = FieldKind::words) {
    out.push_back({place.empty() ? key : place + '.' + key, shape, kind});
  }
  void reading(const char* key, auto&, auto) { add(key, Shape::field, FieldKind::reading); }
  void turn(const char* key, auto&) { add(key, Shape::field, FieldKind::reading); }
  void places(const char* key, auto&, auto) { add(key, Shape::place_field, FieldKind::reading); }
  void several(const char* key, auto&, auto) { add(key, Shape::field, FieldKind::several); }
  void pairs(const char* key, auto&, auto, auto) { add(key, Shape::field, FieldKind::pairs); }
  void number(const char* key, auto&) { add(key, Shape::field, FieldKind::number); }
  void flag(const char* key, auto&) { add(key, Shape::field, FieldKind::flag); }
  void words(const char* key, auto&) { add(key, Shape::field); }
  void word(const char* key, auto&, saw::Words) { add(key, Shape::field); }
  void octane(const char* key, auto&) { add(key, Shape::field); }
  void power_at(const char* key, auto&) { add(key, Shape::field); }
  template <class T>
  void table(const char* key, const T& member) {
    add(key, Shape::table);
    KeyWalk inner{out.back().path, out};
    fields(member, inner);
  }
  template <class T>
  void tables(const char* key, const std::vector<T>&) {
    add(key, std::is_same_v<T, saw::Port> ? Shape::ports : Shape::items);
    KeyWalk inner{out.back().path, out};
    const T one{};
    fields(one, inner);
  }
};

const Known* known(const std::string& path) {
  static const std::vector<Known> all = [] {
    std::vector<Known> out;
    KeyWalk walk{{}, out};
    const saw::Readings none;
    fields(none, walk);
    return out;
  }();
  const auto found = std::find_if(all.begin(), all.end(), [&](const Known& one) { return one.path == path; });
  return found == all.end() ? nullptr : &*found;
}

std::string joined(const std::string& path, const std::string& name) { return path.empty() ? name : path + '.' + name; }

std::vector<std::string> parted(const std::string& path) {
  std::vector<std::string> out(1);
  for (const char c : path)
    if (c == '.')
      out.emplace_back();
    else
      out.back() += c;
  return out;
}

const Tree& branch_at(const Tree& tree, const std::string& path) {
  static const Tree nothing;
  const Tree* found = book::find(tree, path);
  return found && found->kind == Tree::Kind::branch ? *found : nothing;
}

bool is_port_name(const std::string& name) {
  const auto fits = [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_'; };
  return !name.empty() && name.size() <= 64 && name[0] >= 'a' && name[0] <= 'z' &&
         std::all_of(name.begin(), name.end(), fits);
}

// Key of the part whose leaf says so; empty: none.
std::string key_where(const Tree& branch, const char* leaf, const std::string& text) {
  for (const std::string& key : ordered_keys(branch))
    if (const Tree* part = book::find(branch, key); part && text_at(*part, leaf) == text) return key;
  return {};
}

// A new part beside the others of its branch.
std::string begun(FieldPlace& out, const Tree& tree, const std::string& path) {
  const Tree& branch = branch_at(tree, path);
  std::vector<std::string> order = ordered_keys(branch);
  const std::size_t point = path.rfind('.');
  order.push_back(free_key(branch, path[point == std::string::npos ? 0 : point + 1]));
  std::string key = order.back();
  out.beside.emplace_back(path + ".order", list_leaf(std::move(order)));
  return key;
}

// Follows a path by names as far as it is one.
class Way {
 public:
  Way(const Tree& tree, const std::string& asked) : tree_(tree), names_(parted(asked)) {}

  std::optional<FieldPlace> place() {
    for (; at_ < names_.size(); ++at_) {
      general_ = joined(general_, names_[at_]);
      out_.path = joined(out_.path, names_[at_]);
      const Known* here = known(general_);
      if (here == nullptr) return std::nullopt;
      if (here->shape == Shape::field) return at_ + 1 == names_.size() ? finished(*here) : std::nullopt;
      if (here->shape == Shape::place_field) return squish_place(*here);
      const bool goes_on = at_ + 1 < names_.size();
      if (here->shape == Shape::ports && (!goes_on || !port(names_[++at_]))) return std::nullopt;
      if (here->shape == Shape::items && (!goes_on || !item(names_[++at_]))) return std::nullopt;
    }
    return std::nullopt;
  }

 private:
  std::optional<FieldPlace> finished(const Known& here) {
    for (const std::string& name : names_) out_.shown = joined(out_.shown, name);
    out_.kind = here.kind;
    out_.identity = general_ == "name" || general_ == "model" || general_ == "casting";
    return std::move(out_);
  }
  std::optional<FieldPlace> squish_place(const Known& here) {
    std::string name;
    for (std::size_t i = at_ + 1; i < names_.size(); ++i) name = joined(name, names_[i]);
    std::string key = key_where(branch_at(tree_, out_.path), "place", name);
    if (key.empty()) {
      key = begun(out_, tree_, out_.path);
      if (!name.empty()) out_.beside.emplace_back(out_.path + '.' + key + ".place", text_leaf(name));
    }
    out_.path += '.' + key;
    return finished(here);
  }
  bool port(const std::string& name) {
    std::string key = key_where(branch_at(tree_, out_.path), "name", name);
    const bool begins = key.empty() && at_ + 2 == names_.size() && names_.back() == "kind" && is_port_name(name);
    if (begins) {
      key = begun(out_, tree_, out_.path);
      out_.beside.emplace_back(out_.path + '.' + key + ".name", text_leaf(name));
    }
    out_.path += '.' + key;
    return !key.empty();
  }
  bool item(const std::string& number) {
    std::size_t which = 0;
    const auto [end, error] = std::from_chars(number.data(), number.data() + number.size(), which);
    const std::vector<std::string> keys = ordered_keys(branch_at(tree_, out_.path));
    if (error != std::errc() || end != number.data() + number.size() || which == 0 || which > keys.size() + 1)
      return false;
    out_.path += '.' + (which <= keys.size() ? keys[which - 1] : begun(out_, tree_, out_.path));
    return true;
  }

  const Tree& tree_;
  std::vector<std::string> names_;
  std::size_t at_ = 0;
  std::string general_;
  FieldPlace out_;
};

// Paths that this saw has room for.
std::vector<std::string> paths_of(const Tree& tree) {
  std::vector<std::string> out;
  saw::for_each_field(readings_of(tree), [&](const saw::FieldAt& field) {
    std::string path = field.path;
    for (const char* half : {".first", ".second"})
      if (path.ends_with(half)) path.erase(path.size() - std::string_view(half).size());
    if (path.ends_with("stock_power.at")) path.erase(path.size() - 3);
    if (out.empty() || out.back() != path) out.push_back(path);
  });
  return out;
}

// The field whose last words are the mistyped ones, or the nearest whole path.
std::string nearest_path(const std::string& asked, const std::vector<std::string>& paths) {
  if (const std::string whole = nearest(asked, paths); !whole.empty()) return whole;
  std::vector<std::string> ends;
  for (const std::string& path : paths) ends.push_back(path.substr(path.rfind('.') + 1));
  const std::string last = nearest(asked.substr(asked.rfind('.') + 1), ends);
  const auto found = std::find(ends.begin(), ends.end(), last);
  return last.empty() ? std::string() : paths[static_cast<std::size_t>(found - ends.begin())];
}

}  // namespace

base::Result<FieldPlace> find_field(const Tree& tree, const std::string& asked) {
  if (auto place = Way(tree, asked).place()) return std::move(*place);
  const std::vector<std::string> paths = paths_of(tree);
  std::vector<std::string> endings;
  for (const std::string& path : paths)
    if (path.ends_with('.' + asked) && (path.find(".twin.") == std::string::npos || asked.starts_with("twin.")))
      endings.push_back(path);
  if (endings.size() == 1) return find_field(tree, endings.front());
  if (endings.size() > 1)
    return tl::unexpected(base::Error{base::ErrorCode::usage, "\u201C" + asked + "\u201D could be several fields.", "",
                                      "Name one of them.", endings});
  const std::string near = nearest_path(asked, paths);
  const bool of_port = asked.starts_with("port.");
  std::string hint = near.empty() ? std::string() : "Did you mean " + near + '?';
  if (hint.empty() && of_port) hint = "A new port begins with its kind: port.NAME.kind.";
  if (hint.empty()) hint = "portwright new lists every field, with what it is.";
  return tl::unexpected(base::Error{
      base::ErrorCode::not_found, "\u201C" + asked + "\u201D is no field of a saw.", "", std::move(hint), {}});
}

namespace {

// Fields taken, with the tree beside the readings for what only the book knows.
class Lister {
 public:
  Lister(const Tree& tree, std::string shown, std::vector<wire::BookField>& out)
      : tree_(tree), shown_(std::move(shown)), out_(out) {}

  void reading(const char* key, auto&, auto) { one_reading(joined(shown_, key), branch_at(tree_, key)); }
  void turn(const char* key, auto&) { one_reading(joined(shown_, key), branch_at(tree_, key)); }
  void places(const char* key, auto&, auto) {
    for (const std::string& name : ordered_keys(branch_at(tree_, key))) {
      const Tree& place = branch_at(branch_at(tree_, key), name);
      const std::string called = text_at(place, "place");
      one_reading(joined(shown_, key) + (called.empty() ? "" : '.' + called), place);
    }
  }
  void several(const char* key, auto&, auto) { leaf(key); }
  void pairs(const char* key, auto&, auto, auto) { leaf(key); }
  void number(const char* key, auto&) { leaf(key); }
  void flag(const char* key, auto&) { leaf(key); }
  void words(const char* key, auto&) { leaf(key); }
  void word(const char* key, auto&, saw::Words) { leaf(key); }
  void octane(const char* key, auto&) { leaf(key); }
  void power_at(const char* key, auto&) { leaf(key); }
  template <class T>
  void table(const char* key, const T& member) {
    Lister inner(branch_at(tree_, key), joined(shown_, key), out_);
    fields(member, inner);
  }
  template <class T>
  void tables(const char* key, const std::vector<T>& items) {
    const Tree& branch = branch_at(tree_, key);
    const std::vector<std::string> keys = ordered_keys(branch);
    for (std::size_t i = 0; i < keys.size() && i < items.size(); ++i) {
      const Tree& part = branch_at(branch, keys[i]);
      const std::string name = std::is_same_v<T, saw::Port> ? text_at(part, "name") : std::to_string(i + 1);
      Lister inner(part, joined(joined(shown_, key), name), out_);
      fields(items[i], inner);
    }
  }

 private:
  void one_reading(std::string shown, const Tree& branch) {
    if (branch.parts.empty()) return;
    const Tree* read = book::find(branch, "read");
    out_.push_back({std::move(shown), read ? read->list : std::vector<std::string>{}, text_at(branch, "with"),
                    text_at(branch, "setup"), text_at(branch, "note"), text_at(branch, "borrowed_from")});
  }
  void leaf(const char* key) {
    const Tree* found = book::find(tree_, key);
    if (found == nullptr || found->kind == Tree::Kind::branch) return;
    std::vector<std::string> texts = found->list;
    if (found->kind == Tree::Kind::text) texts = {found->text};
    if (found->kind == Tree::Kind::flag) texts = {found->flag ? "true" : "false"};
    out_.push_back({joined(shown_, key), std::move(texts), {}, {}, {}, {}});
  }

  const Tree& tree_;
  std::string shown_;
  std::vector<wire::BookField>& out_;
};

}  // namespace

std::vector<wire::BookField> fields_of(const Tree& tree) {
  std::vector<wire::BookField> out;
  const saw::Readings readings = readings_of(tree);
  Lister lister(tree, "", out);
  fields(readings, lister);
  return out;
}

std::string shown_path(const Tree& tree, const std::string& path) {
  std::string shown, general, real;
  const Known* above = nullptr;
  for (const std::string& name : parted(path)) {
    const Tree& branch = branch_at(tree, real);
    real = joined(real, name);
    const bool counted =
        above && (above->shape == Shape::ports || above->shape == Shape::items || above->shape == Shape::place_field);
    if (!counted || name == "order") {
      general = joined(general, name);
      above = known(general);
      if (above != nullptr || name != "read") shown = joined(shown, name);
      continue;
    }
    const Tree& part = branch_at(branch, name);
    const std::vector<std::string> keys = ordered_keys(branch);
    const auto number = std::find(keys.begin(), keys.end(), name) - keys.begin() + 1;
    const char* leaf = above->shape == Shape::ports ? "name" : "place";
    const std::string called = above->shape == Shape::items ? std::to_string(number) : text_at(part, leaf);
    shown =
        called.empty() && above->shape == Shape::place_field ? shown : joined(shown, called.empty() ? name : called);
    above = nullptr;
  }
  return shown;
}

std::string shown_value(const Tree& value) {
  if (value.kind == Tree::Kind::text) return value.text;
  if (value.kind == Tree::Kind::flag) return value.flag ? "true" : "false";
  std::string out;
  const auto add = [&out](const std::string& text) { out += (out.empty() ? "" : "; ") + text; };
  if (value.kind == Tree::Kind::list) {
    for (const std::string& text : value.list) add(text);
    return out;
  }
  if (const Tree* read = book::find(value, "read")) out = shown_value(*read);
  for (const book::Part& part : value.parts)
    if (part.name != "read") add(part.name + ": " + shown_value(part.tree));
  return out;
}

}  // namespace portwright::desk
