//! Guesses what most often followed any of the last symbols, with one dictionary of contexts: SP 800-90B, 6.3.10.

use super::{Best, NONE, Score};

/// Contexts as a tree: a child of a node is the context that reaches one symbol further back.
struct Tree {
    kinds: usize,
    children: Vec<u32>,
    counts: Vec<u32>,
    bests: Vec<Best>,
}

impl Tree {
    fn new(kinds: u8) -> Self {
        let mut tree =
            Self { kinds: usize::from(kinds), children: Vec::new(), counts: Vec::new(), bests: Vec::new() };
        tree.grow();
        tree
    }

    fn grow(&mut self) -> u32 {
        self.children.resize(self.children.len() + self.kinds, NONE);
        self.counts.resize(self.counts.len() + self.kinds, 0);
        self.bests.push(Best::default());
        self.bests.len() as u32 - 1
    }

    fn child(&self, node: u32, symbol: u8) -> u32 {
        self.children[node as usize * self.kinds + usize::from(symbol)]
    }

    fn child_or_new(&mut self, node: u32, symbol: u8) -> u32 {
        match self.child(node, symbol) {
            NONE => {
                let new = self.grow();
                self.children[node as usize * self.kinds + usize::from(symbol)] = new;
                new
            }
            child => child,
        }
    }

    fn count(&mut self, node: u32, symbol: u8) {
        let count = &mut self.counts[node as usize * self.kinds + usize::from(symbol)];
        *count += 1;
        self.bests[node as usize].note(symbol, *count);
    }

    /// A node without a count only leads to longer contexts; it is not an entry.
    fn is_entry(&self, node: u32) -> bool {
        self.bests[node as usize].count > 0
    }
}

/// Guesses from the second symbol after the first whole context on: the most frequent successor of any context of 1 to
/// `longest` symbols, of equals that of the longest. New contexts are entered, longest first, while there is room.
pub(super) fn judge(symbols: &[u8], kinds: u8, longest: usize, entries: usize) -> Score {
    let mut tree = Tree::new(kinds);
    let mut entered = 0;
    let mut score = Score::new(kinds);
    let mut path = Vec::with_capacity(longest);
    for (place, &symbol) in symbols.iter().enumerate().skip(longest) {
        let full = entered >= entries;
        path.clear();
        let mut node = 0;
        for &before in symbols[place - longest..place].iter().rev() {
            node = if full { tree.child(node, before) } else { tree.child_or_new(node, before) };
            if node == NONE {
                break;
            }
            path.push(node);
        }
        if place > longest {
            let mut best = Best::default();
            for &node in path.iter().rev() {
                if tree.bests[node as usize].count > best.count {
                    best = tree.bests[node as usize];
                }
            }
            score.add(best.count > 0 && best.symbol == symbol);
        }
        for &node in path.iter().rev() {
            if tree.is_entry(node) {
                tree.count(node, symbol);
            } else if entered < entries {
                entered += 1;
                tree.count(node, symbol);
            }
        }
    }
    score
}
