#!/usr/bin/env bash
# One study as a Slurm array job: here 64 parts, one core each, then the merge.
#
#   parts=$(sbatch --parsable --array=1-64 slurm-array.sh payload.yaml 64 --flights 1e6)
#   sbatch --dependency=afterok:$parts --wrap 'fallmargin merge payload-*-of-64.part'
#
# The first word is the scenario, the second says into how many parts, the others go to every part. A part whose time
# was up, or that was cancelled, has kept what it flew: submitted again (--array=7), it goes on from its own file.
#SBATCH --job-name=fallmargin
#SBATCH --ntasks=1
#SBATCH --cpus-per-task=1
#SBATCH --mem=1G
#SBATCH --time=04:00:00
#SBATCH --requeue
#SBATCH --output=%x-%a.log
#SBATCH --open-mode=append
set -euo pipefail
scenario=$1 parts=$2
shift 2
part=$SLURM_ARRAY_TASK_ID
name=$(basename "$scenario")
file=${name%.*}-$part-of-$parts.part
resume=()
[ ! -e "$file" ] || resume=(--resume "$file")

# In the place of the shell, so that it hears Slurm's SIGTERM and keeps what it has flown.
exec fallmargin assess "$scenario" --part "$part/$parts" --threads "${SLURM_CPUS_PER_TASK:-1}" --quiet "${resume[@]}" "$@"
