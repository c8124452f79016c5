// The tree of a document: whatever is read has one canonical form, and no path does what it should not.

#include <string>

#include "book/tree.hpp"
#include "corpora/targets.hpp"

using namespace portwright::book;
using portwright::corpora::require;

namespace {

bool has_empty_branch(const Tree& tree) {
  for (const Part& part : tree.parts)
    if (part.tree.empty_branch() || has_empty_branch(part.tree)) return true;
  return false;
}

void check_paths(const Tree& tree, const Tree& at, const std::string& path) {
  for (const Part& part : at.parts) {
    const std::string here = path.empty() ? part.name : path + "." + part.name;
    require(is_path(here), "a name read can be named in a path: " + here);
    const Tree* found = find(tree, here);
    require(found != nullptr && *found == part.tree, "what was read is found by its path: " + here);
    Tree without = tree;
    remove(without, here);
    require(find(without, here) == nullptr && !has_empty_branch(without), "what is removed is gone: " + here);
    require(set(without, here, part.tree).has_value() && without == tree, "set again, it is as it was: " + here);
    if (path.size() < 20) check_paths(tree, part.tree, here);
  }
}

}  // namespace

PORTWRIGHT_TARGET(book_tree) {
  const std::string json(bytes.begin(), bytes.end());
  const auto tree = parse_tree(json);
  if (!tree) return require(!tree.error().message.empty(), "a refusal says why");
  const std::string canonical = print(*tree);
  const auto again = parse_tree(canonical);
  require(again.has_value() && *again == *tree, "canonical text gives the same tree: " + canonical);
  require(print(*again) == canonical, "canonical text stays as it is: " + canonical);
  require(!has_empty_branch(*tree), "no branch inside is empty");
  require(is_text(canonical) && is_text(texts(*tree)), "what is printed is text");
  if (bytes.size() < 2000) check_paths(*tree, *tree, {});
}
