//! The crates of a build, by `cargo metadata`.
//!
//! Its list has also crates that are built by no feature in force (`name?/feature` alone brings them into the lock file): an edge
//! to an optional dependency is followed only where a feature in force asks for it.

use serde::Deserialize;
use std::collections::{BTreeSet, HashMap, HashSet};
use std::process::Command;

/// What is shipped, the one that is built here first.
pub(crate) const PLATFORMS: [&str; 2] = ["x86_64-unknown-linux-gnu", "x86_64-pc-windows-gnu"];

/// Which features of the program are on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Features {
    All,
    None,
}

/// Which dependencies are followed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Kinds {
    /// All, those of the tests too.
    All,
    /// Those of the program, and of its build scripts and macros.
    Shipped,
}

/// A crate.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Crate {
    pub name: String,
    pub version: String,
    /// Its license expression; nothing where it names none.
    pub license: String,
}

#[derive(Debug, Deserialize)]
struct Metadata {
    packages: Vec<Package>,
    resolve: Resolve,
}

#[derive(Debug, Deserialize)]
struct Package {
    id: String,
    name: String,
    version: String,
    license: Option<String>,
    dependencies: Vec<Declared>,
    features: HashMap<String, Vec<String>>,
}

#[derive(Debug, Deserialize)]
struct Declared {
    name: String,
    rename: Option<String>,
    optional: bool,
}

#[derive(Debug, Deserialize)]
struct Resolve {
    nodes: Vec<Node>,
    root: String,
}

#[derive(Debug, Deserialize)]
struct Node {
    id: String,
    features: Vec<String>,
    deps: Vec<Edge>,
}

#[derive(Debug, Deserialize)]
struct Edge {
    pkg: String,
    dep_kinds: Vec<EdgeKind>,
}

#[derive(Debug, Deserialize)]
struct EdgeKind {
    /// None of a usual dependency, else `dev` or `build`.
    kind: Option<String>,
}

/// The crates of one platform.
#[derive(Debug)]
pub(crate) struct Graph {
    pub platform: &'static str,
    metadata: Metadata,
}

impl Graph {
    /// None where the crates of another platform were not fetched.
    pub(crate) fn of(platform: &'static str, features: Features) -> Option<Self> {
        let mut cargo = Command::new(env!("CARGO"));
        cargo.args(["metadata", "--offline", "--locked", "--format-version", "1", "--filter-platform", platform]);
        cargo.args(["--manifest-path", concat!(env!("CARGO_MANIFEST_DIR"), "/Cargo.toml")]);
        if features == Features::None {
            cargo.arg("--no-default-features");
        }
        let done = cargo.output().unwrap();
        if done.status.success() {
            return Some(Self { platform, metadata: serde_json::from_slice(&done.stdout).unwrap() });
        }
        let said = String::from_utf8_lossy(&done.stderr);
        assert!(said.contains("--offline"), "cargo metadata: {said}");
        let required = std::env::var_os("BENCHWALK_DEPENDENCIES").is_some_and(|value| value == "required");
        assert!(!required && Some(&platform) != PLATFORMS.first(), "{platform}: cargo fetch --locked first: {said}");
        println!("{platform}: not looked at, for its crates were not fetched (cargo fetch --locked)");
        None
    }

    /// The crates that are built, without the program itself.
    pub(crate) fn built(&self, kinds: Kinds) -> BTreeSet<Crate> {
        let packages: HashMap<&str, &Package> = self.metadata.packages.iter().map(|p| (p.id.as_str(), p)).collect();
        let nodes: HashMap<&str, &Node> = self.metadata.resolve.nodes.iter().map(|n| (n.id.as_str(), n)).collect();
        let root = self.metadata.resolve.root.as_str();
        let (mut seen, mut next) = (HashSet::new(), vec![root]);
        while let Some(id) = next.pop() {
            if !seen.insert(id) {
                continue;
            }
            let (package, node) = (packages[id], nodes[id]);
            let asked = asked_for(package, &node.features);
            for edge in &node.deps {
                let to = packages[edge.pkg.as_str()];
                let followed = kinds == Kinds::All || edge.dep_kinds.iter().any(|k| k.kind.as_deref() != Some("dev"));
                let mut declared = package.dependencies.iter().filter(|d| d.name == to.name);
                let on = declared.any(|d| !d.optional || asked.contains(d.rename.as_ref().unwrap_or(&d.name).as_str()));
                if followed && on {
                    next.push(&edge.pkg);
                }
            }
        }
        seen.remove(root);
        let of = |id: &str| {
            let package = packages[id];
            Crate {
                name: package.name.clone(),
                version: package.version.clone(),
                license: package.license.clone().unwrap_or_default(),
            }
        };
        seen.into_iter().map(of).collect()
    }
}

/// The optional dependencies that the features in force ask for, by the names the package has for them.
fn asked_for<'p>(package: &'p Package, features: &'p [String]) -> HashSet<&'p str> {
    let values = features.iter().filter_map(|feature| package.features.get(feature)).flatten();
    let asked = values.filter_map(|value| match value.split_once('/') {
        Some((name, _)) if name.ends_with('?') => None,
        Some((name, _)) => Some(name),
        None => Some(value.strip_prefix("dep:").unwrap_or(value)),
    });
    asked.chain(features.iter().map(String::as_str)).collect()
}
